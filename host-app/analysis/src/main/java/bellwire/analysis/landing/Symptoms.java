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
   * @param confirmed those of them that were answered by yes
   * @param barred states in which nothing more is tried, as in {@link Trials}
   */
  record Told(long possible, long seen, long notSeen, long asked, long confirmed, long barred) {
    /** Odds that a complaint has its cause outside the loop (CP). */
    private static final double OUTSIDE = 0.01;

    /** The same for one that hardly anything outside can make: a fuse, a transformer (CP). */
    private static final double SELDOM_OUTSIDE = 3e-5;

    // Theory (82): P(told | shows, does not, may, is implied); CP.
    private static final double[] SEEN = logs(0.65, 0.04, 0.4, 0.45);
    private static final double[] DENIED = logs(0.05, 0.96, 0.5, 0.05);
    private static final double[] UNTOLD = logs(0.35, 0.96, 0.6, 0.55);

    /** For what follows from something told: few mention it. */
    private static final double[] FOLLOWS = logs(0.8, 0.96, 0.8, 0.8);

    private static double[] logs(double... p) {
      for (int k = 0; k < p.length; k++) {
        p[k] = Math.log(p[k]);
      }
      return p;
    }

    private long untold() {
      return possible & ~seen & ~notSeen & ~asked;
    }

    /** Who tells of one symptom tells of the gravest; who tells of several adds lesser ones. */
    private long following() {
      return Long.bitCount(seen) == 1 ? untold() & Trials.known(seen, notSeen) : 0;
    }

    /** Symptoms that need not be asked for. */
    long known() {
      return Trials.known(seen | confirmed, notSeen);
    }

    /**
     * Natural logarithm of the likelihood, theory (82). What shows nothing of what was told has not
     * caused the complaint: something outside the loop has, beside it.
     */
    double logLikelihood(Symptoms rendered) {
      long shows = rendered.shown | rendered.implied | rendered.doubtful;
      long met = seen | confirmed;
      return told(rendered) + (met == 0 || (met & shows) != 0 ? 0 : Math.log(outside(met)));
    }

    private static double outside(long met) {
      return (met & Symptoms.bits(Symptom.seldomOutside())) == 0 ? OUTSIDE : SELDOM_OUTSIDE;
    }

    private double told(Symptoms rendered) {
      return sum(seen & ~asked, rendered, SEEN)
          + sum(notSeen & ~asked, rendered, DENIED)
          + sum(untold() & ~following(), rendered, UNTOLD)
          + sum(following(), rendered, FOLLOWS);
    }

    /** No rendering has more. */
    double logBound() {
      return Long.bitCount(seen & ~asked) * SEEN[0]
          + Long.bitCount(notSeen & ~asked) * DENIED[1]
          + Long.bitCount(untold()) * UNTOLD[1];
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
