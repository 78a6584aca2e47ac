package bellwire.analysis.fault;

import java.util.Arrays;

/** The quantities that a fit may move, each with the normal distribution that it comes from. */
final class Parameters {
  private double[] mean = new double[16];
  private double[] sigma = new double[16];
  private double[] start = new double[16];
  private int count;

  /** Adds one and returns its index. */
  int add(double priorMean, double priorSigma) {
    if (count == mean.length) {
      mean = Arrays.copyOf(mean, 2 * count);
      sigma = Arrays.copyOf(sigma, 2 * count);
      start = Arrays.copyOf(start, 2 * count);
    }
    mean[count] = priorMean;
    sigma[count] = priorSigma;
    start[count] = priorMean;
    return count++;
  }

  void startAt(int index, double value) {
    start[index] = value;
  }

  int count() {
    return count;
  }

  double mean(int index) {
    return mean[index];
  }

  double sigma(int index) {
    return sigma[index];
  }

  double[] start() {
    return Arrays.copyOf(start, count);
  }
}
