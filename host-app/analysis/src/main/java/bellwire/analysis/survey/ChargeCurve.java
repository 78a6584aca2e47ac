package bellwire.analysis.survey;

/**
 * What conversions back to back show of a capacitance that is charged through a resistance from the
 * switching on, with hum on it: each is the mean over its window. Theory (25).
 *
 * @param startSeconds of the first window, after the switching
 * @param windowSeconds of each window; the next begins where one ends
 */
record ChargeCurve(double startSeconds, double windowSeconds) {

  /** Share of the final voltage that window k still lacks. */
  double lacking(int k, double tau) {
    double a = startSeconds + k * windowSeconds;
    return tau / windowSeconds * (Math.exp(-a / tau) - Math.exp(-(a + windowSeconds) / tau));
  }

  /** Change of {@link #lacking} with ln τ. */
  double lackingByLogTau(int k, double tau) {
    double a = startSeconds + k * windowSeconds;
    double b = a + windowSeconds;
    return lacking(k, tau) + (a * Math.exp(-a / tau) - b * Math.exp(-b / tau)) / windowSeconds;
  }

  /** Change of {@link #lacking} with the start of the windows, per second. */
  double lackingByStart(int k, double tau) {
    double a = startSeconds + k * windowSeconds;
    return (Math.exp(-(a + windowSeconds) / tau) - Math.exp(-a / tau)) / windowSeconds;
  }

  /** Mean of cos ωt over window k. */
  double cosine(int k, double omega) {
    double a = startSeconds + k * windowSeconds;
    return (Math.sin(omega * (a + windowSeconds)) - Math.sin(omega * a)) / (omega * windowSeconds);
  }

  /** Mean of sin ωt over window k. */
  double sine(int k, double omega) {
    double a = startSeconds + k * windowSeconds;
    return (Math.cos(omega * a) - Math.cos(omega * (a + windowSeconds))) / (omega * windowSeconds);
  }

  /** Changes of {@link #cosine} and {@link #sine} with the start, per second. */
  double[] toneByStart(int k, double omega) {
    double a = startSeconds + k * windowSeconds;
    double b = a + windowSeconds;
    return new double[] {
      (Math.cos(omega * b) - Math.cos(omega * a)) / windowSeconds,
      (Math.sin(omega * b) - Math.sin(omega * a)) / windowSeconds
    };
  }

  /** Changes of {@link #cosine} and {@link #sine} with ln ω. */
  double[] toneByLogOmega(int k, double omega) {
    double a = startSeconds + k * windowSeconds;
    double b = a + windowSeconds;
    return new double[] {
      (b * Math.cos(omega * b) - a * Math.cos(omega * a)) / windowSeconds - cosine(k, omega),
      (b * Math.sin(omega * b) - a * Math.sin(omega * a)) / windowSeconds - sine(k, omega)
    };
  }
}
