package bellwire.analysis.landing;

/**
 * Entropies in bits: Shannon 1948; MacKay, Information Theory, Inference, and Learning Algorithms.
 */
final class Information {
  private static final double LN_2 = Math.log(2);

  private Information() {}

  /**
   * What an answer is expected to tell, theory (84): Lindley's measure of an experiment (Ann. Math.
   * Statist. 27, 1956), the mutual information of what is asked and the answer.
   *
   * @param shares probabilities of what may be, summing to 1
   * @param answers for each of them the probabilities of the answers, each summing to 1
   * @return bits, not negative
   */
  static double expected(double[] shares, double[][] answers) {
    double[] marginal = new double[answers[0].length];
    double conditional = 0;
    for (int k = 0; k < shares.length; k++) {
      for (int a = 0; a < marginal.length; a++) {
        marginal[a] += shares[k] * answers[k][a];
      }
      conditional += shares[k] * entropy(answers[k]);
    }
    return Math.max(0, entropy(marginal) - conditional);
  }

  static double entropy(double... p) {
    double sum = 0;
    for (double share : p) {
      sum -= share <= 0 ? 0 : share * Math.log(share) / LN_2;
    }
    return sum;
  }
}
