package bellwire.analysis.fault;

/** A resistor between two nodes, and how it changes with the parameters of a fit. */
final class Resistor {
  static final double LEAST_OHMS = 1e-5;
  private static final double SOFT_OHMS = 1e-3;
  private static final int MOST_TERMS = 8;

  final int x;
  final int y;
  double ohms;
  int terms;
  final int[] index = new int[MOST_TERMS];
  final double[] slope = new double[MOST_TERMS];

  Resistor(int x, int y) {
    this.x = x;
    this.y = y;
  }

  /**
   * A place beyond the end of the run would make a stretch of copper negative; it bends to zero
   * instead, smoothly, so that the fit finds back: s ln(1 + e^(r/s)).
   */
  void keepPositive() {
    double scaled = ohms / SOFT_OHMS;
    if (scaled < 30) {
      double share = 1 / (1 + Math.exp(-scaled));
      ohms = Math.max(SOFT_OHMS * Math.log1p(Math.exp(scaled)), LEAST_OHMS);
      for (int t = 0; t < terms; t++) {
        slope[t] *= share;
      }
    }
  }

  /**
   * Adds some resistance in series.
   *
   * @param parameter that it changes with, −1 for none
   * @param value ohm
   * @param derivative ohm for each unit of the parameter
   */
  void add(int parameter, double value, double derivative) {
    ohms += value;
    if (parameter >= 0 && derivative != 0) {
      index[terms] = parameter;
      slope[terms++] = derivative;
    }
  }
}
