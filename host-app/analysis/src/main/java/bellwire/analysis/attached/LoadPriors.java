package bellwire.analysis.attached;

/**
 * What is expected to be attached to a 24 V class control cable, before anything is measured: the
 * one place for it. All of it is common practice without a source; ranges are uniform in the
 * logarithm. Theory (43).
 */
final class LoadPriors {
  /** A range, and what it is worth to lie in it. */
  record Range(double low, double high) {
    /** Natural logarithm of the density per unit of ln x; falls off outside as a normal would. */
    double logDensity(double x) {
      double beyond = Math.max(0, Math.max(Math.log(low / x), Math.log(x / high))) / EDGE;
      return -Math.log(Math.log(high / low)) - 0.5 * beyond * beyond;
    }
  }

  /** Width of a range's edges, of ln x. */
  private static final double EDGE = 0.15;

  /** Relay, contactor and valve coils. */
  static final Range COIL_OHMS = new Range(4, 400);

  static final Range COIL_HENRIES = new Range(0.02, 3);

  /** Secondaries of 20 to 100 VA, leads included. */
  static final Range SECONDARY_OHMS = new Range(0.1, 3);

  static final Range SECONDARY_HENRIES = new Range(0.01, 2);

  static final Range FARADS = new Range(20e-9, 200e-6);

  /** Forward voltage of a silicon diode at 1 to 2 mA, and its standard deviation. */
  static final double DIODE_VOLTS = 0.62;

  static final double DIODE_SIGMA_VOLTS = 0.08;

  /** From bare copper touching to a leakage. */
  static final Range PLAIN_OHMS = new Range(1e-3, 1e8);

  /** In units of its standard uncertainty, how far each reading is off where nothing known fits. */
  static final double UNKNOWN_MISFIT = 4;

  private LoadPriors() {}

  /** Share of each kind among what is found between two conductors. */
  static double share(LoadKind kind) {
    return switch (kind) {
      case COIL -> 0.3;
      case SECONDARY -> 0.15;
      case CAPACITOR -> 0.1;
      case DIODE -> 0.05;
      case RESISTANCE -> 0.39;
      case UNKNOWN -> 0.01;
    };
  }
}
