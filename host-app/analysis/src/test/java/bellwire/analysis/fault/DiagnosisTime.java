package bellwire.analysis.fault;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.Random;

/**
 * How long the host infers once all readings are there, from 4 to 64 conductors: a short, a joint
 * and a break, and, in the second series, a bridged pair of every four conductors. Prints processor
 * time of the thread, which other load does not change; run it by itself for the first call.
 */
public final class DiagnosisTime {
  private static final long SEED = 64;
  private static final int[] SIZES = {4, 8, 16, 32, 64};
  private static final int CALLS = 10;

  private DiagnosisTime() {}

  /**
   * A short between the first two, a joint in the third, the last broken; of four the second, lest
   * too few be left to read the plug's arms.
   */
  static Evidence threeFaults(int conductors) {
    return cable(conductors)
        .bridge(0, 1, 0.37, 0.2)
        .joint(2, 0.999, 0.8)
        .broken(conductors == 4 ? 1 : conductors - 1, 0.6)
        .evidence();
  }

  static Evidence bridgedPairs(int conductors) {
    SyntheticCable cable = cable(conductors);
    for (int k = 0; k < conductors; k += 4) {
      cable.bridge(k, k + 1, 0.1 + 0.8 * k / conductors, 0.2 + 0.1 * k);
    }
    return cable.evidence();
  }

  /** A plug with a position for each, in the steps of a coded plug's. */
  private static SyntheticCable cable(int conductors) {
    double[] arms = new double[Math.max(16, conductors)];
    for (int i = 0; i < arms.length; i++) {
      arms[i] = 50 + 43 * i;
    }
    return new SyntheticCable(new Random(SEED), conductors, arms, 0.8);
  }

  /** Milliseconds of processor time of one call. */
  static double millis(Evidence evidence) {
    long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Diagnosis.of(evidence);
    return (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start) / 1e6;
  }

  private static void print(String series, int conductors, Evidence evidence) {
    double first = millis(evidence);
    double last = Double.POSITIVE_INFINITY;
    for (int call = 2; call <= CALLS; call++) {
      last = Math.min(last, millis(evidence));
    }
    System.out.printf("%-12s %10d %9.0f %15.0f%n", series, conductors, first, last);
  }

  /**
   * @param args numbers of conductors; none for 4 to 64
   */
  public static void main(String[] args) {
    int[] sizes =
        args.length == 0 ? SIZES : Arrays.stream(args).mapToInt(Integer::parseInt).toArray();
    System.out.println("seed=" + SEED + ", ms of one core");
    System.out.printf("series       conductors      first  warm, of %d%n", CALLS);
    for (int n : sizes) {
      print("three faults", n, threeFaults(n));
    }
    for (int n : sizes) {
      print("pairs", n, bridgedPairs(n));
    }
  }
}
