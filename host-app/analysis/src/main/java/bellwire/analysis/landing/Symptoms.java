package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import java.util.Set;

/**
 * Sets of symptoms as bits, and how probable it is that they are told of.
 *
 * @param shown bit n: symptom n shows
 * @param implied bit n: it shows beside a greater one
 * @param doubtful bit n: it may show
 */
record Symptoms(long shown, long implied, long doubtful) {

  static final Symptoms NONE = new Symptoms(0, 0, 0);

  static Symptoms of(SymptomReader.Reading reading) {
    return new Symptoms(bits(reading.shown()), bits(reading.implied()), bits(reading.doubtful()));
  }

  static long bits(Set<Symptom> symptoms) {
    long bits = 0;
    for (Symptom s : symptoms) {
      bits |= 1L << s.ordinal();
    }
    return bits;
  }

  /**
   * What was said of each symptom.
   *
   * @param possible those that the installation can show
   * @param seen told of without being asked
   * @param notSeen denied without being asked
   * @param asked asked for since: their answers are weighed elsewhere
   */
  record Told(long possible, long seen, long notSeen, long asked) {
    // Theory (82): P(told | shows, does not, may, is implied); CP.
    private static final double[] SEEN = logs(0.65, 0.04, 0.4, 0.45);
    private static final double[] DENIED = logs(0.05, 0.96, 0.5, 0.05);
    private static final double[] UNTOLD = logs(0.35, 0.96, 0.6, 0.55);

    private static double[] logs(double... p) {
      for (int k = 0; k < p.length; k++) {
        p[k] = Math.log(p[k]);
      }
      return p;
    }

    private long untold() {
      return possible & ~seen & ~notSeen;
    }

    /** Natural logarithm of the likelihood, theory (82). */
    double logLikelihood(Symptoms rendered) {
      return sum(seen & ~asked, rendered, SEEN)
          + sum(notSeen & ~asked, rendered, DENIED)
          + sum(untold() & ~asked, rendered, UNTOLD);
    }

    /** No rendering has more. */
    double logBound() {
      return Long.bitCount(seen & ~asked) * SEEN[0]
          + Long.bitCount(notSeen & ~asked) * DENIED[1]
          + Long.bitCount(untold() & ~asked) * UNTOLD[1];
    }

    private static double sum(long of, Symptoms rendered, double[] logs) {
      int shown = Long.bitCount(of & rendered.shown);
      int may = Long.bitCount(of & rendered.doubtful);
      int implied = Long.bitCount(of & rendered.implied);
      int absent = Long.bitCount(of) - shown - may - implied;
      return shown * logs[0] + absent * logs[1] + may * logs[2] + implied * logs[3];
    }
  }
}
