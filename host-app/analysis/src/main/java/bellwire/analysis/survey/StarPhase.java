package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A plug on the far end makes the conductors a star. Current goes from one conductor to the next;
 * the voltage from the first to a third, which carries none, is that of the first conductor's own
 * arm: its resistance and what the plug adds. Round the ring every arm is read by itself. Theory
 * (10).
 */
public final class StarPhase implements Phase {

  /**
   * One arm's reading.
   *
   * @param a port that is driven and then returned; the arm read, where {@code k} is a third port
   * @param b the other end of the current
   * @param k where the voltage is taken to; equals {@code b} when there is no third port
   * @param ohms voltage over current
   * @param readings the four it is made of
   */
  public record Observation(int a, int b, int k, Quantity ohms, List<Reading> readings) {}

  /** More would make the phase too long. */
  private static final int MOST_LOOPS = 16;

  private final RatioReader reader;
  private final List<int[]> triples = new ArrayList<>();
  private final List<int[]> loops = new ArrayList<>();
  private final List<Observation> observations = new ArrayList<>();
  private final List<Observation> alongBridges = new ArrayList<>();
  private final List<int[]> overloaded = new ArrayList<>();
  private final double[] coarseOhms;
  private final List<Integer> clustered;
  private final int guard;
  private final boolean landed;
  private List<int[]> pending;
  private boolean again;

  /**
   * @param connected ports that hang on the plug
   * @param open what the cable showed without it
   * @param coarseOhms resistance of each port to all others with the plug on
   */
  public StarPhase(
      BoardModel board, List<Integer> connected, OpenResult open, double[] coarseOhms) {
    this(board, connected, open, coarseOhms, false);
  }

  /**
   * @param landed at equipment, which joins conductors at the near end: where it leaves fewer than
   *     three apart, those that it joins by the highest resistance serve for the voltage
   */
  public StarPhase(
      BoardModel board,
      List<Integer> connected,
      OpenResult open,
      double[] coarseOhms,
      boolean landed) {
    this.landed = landed;
    reader = new RatioReader(board.noisier(open.noiseFactor()));
    this.coarseOhms = coarseOhms;
    clustered = connected.stream().filter(p -> !open.touching(p).isEmpty()).toList();
    guard = quiet(connected, open, coarseOhms);
    List<Integer> ring = new ArrayList<>();
    for (int port : connected) {
      if (ring.stream().noneMatch(p -> open.touching(port).contains(p))) {
        ring.add(port);
      }
    }
    if (landed && ring.size() < 3 && connected.size() > 2) {
      connected.forEach(port -> triples.add(farthest(port, connected, open)));
    } else {
      round(ring, connected, open);
    }
    loops(ring, connected, open);
    pending = new ArrayList<>(triples);
    pending.addAll(loops);
  }

  /** The port, and the two others of which it and they are farthest from one another. */
  private static int[] farthest(int port, List<Integer> connected, OpenResult open) {
    int[] best = {port, port, port};
    double most = Double.NEGATIVE_INFINITY;
    for (int b : connected) {
      for (int k : connected) {
        double least =
            Math.min(ohms(port, b, open), Math.min(ohms(port, k, open), ohms(b, k, open)));
        if (b != port && k != port && b != k && least > most) {
          most = least;
          best = new int[] {port, b, k};
        }
      }
    }
    return best;
  }

  private static double ohms(int a, int b, OpenResult open) {
    Quantity read = a == b ? null : open.distances()[a][b];
    return read == null ? Double.POSITIVE_INFINITY : read.value();
  }

  private void round(List<Integer> ring, List<Integer> connected, OpenResult open) {
    int m = ring.size();
    for (int i = 0; i < m && m > 1; i++) {
      int a = ring.get(i);
      int b = ring.get((i + 1) % m);
      triples.add(new int[] {a, b, third(a, b, rotated(ring, i + 2), open)});
      if (m == 2) {
        break;
      }
    }
    // The other ports of a cluster are read against two that are not of it.
    for (int port : connected) {
      List<Integer> apart =
          ring.stream().filter(p -> p != port && !open.touching(port).contains(p)).toList();
      if (!ring.contains(port) && apart.size() > 1) {
        triples.add(new int[] {port, apart.get(0), third(port, apart.get(0), apart, open)});
      }
    }
  }

  private static List<Integer> rotated(List<Integer> ring, int from) {
    List<Integer> rotated = new ArrayList<>();
    for (int k = 0; k < ring.size(); k++) {
      rotated.add(ring.get((from + k) % ring.size()));
    }
    return rotated;
  }

  /**
   * A port to take the voltage to: the first that leaks to neither end of the current; otherwise
   * the first; with only two ports the other end.
   */
  private static int third(int a, int b, List<Integer> ring, OpenResult open) {
    List<Integer> others = ring.stream().filter(p -> p != a && p != b).toList();
    return others.stream()
        .filter(p -> open.leakSiemens(p, a) == 0 && open.leakSiemens(p, b) == 0)
        .findFirst()
        .orElse(others.isEmpty() ? b : others.get(0));
  }

  /**
   * Current through a bridge, from one conductor into the other; the voltage from the first to a
   * third that the plug joins to it and that carries none: the copper ahead of the bridge, as in a
   * Murray loop, and what little the plug adds. Theory (37).
   */
  private void loops(List<Integer> ring, List<Integer> connected, OpenResult open) {
    for (List<Integer> cluster : open.clusters()) {
      List<Integer> apart = ring.stream().filter(p -> !cluster.contains(p)).toList();
      boolean hangs = cluster.stream().anyMatch(connected::contains);
      if (apart.isEmpty() || cluster.size() < 2 || !hangs) {
        continue;
      }
      for (int a : cluster) {
        for (int b : cluster) {
          if (a != b && a != Ports.METAL && loops.size() < MOST_LOOPS) {
            loops.add(new int[] {a, b, third(a, b, apart, open)});
          }
        }
      }
    }
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    for (int[] t : pending) {
      double expected = overloaded.contains(t) ? FarEndWatch.CONNECTED_OHMS : expectedOhms(t);
      probes.addAll(
          reader.probes(t[0], t[1], guard, Look.pair(t[0], t[2]), expected, Pace.PRECISE, 1000));
    }
    return probes;
  }

  /** A port of a cluster is low for its neighbour's sake; what its own arm is shows only now. */
  private double expectedOhms(int[] triple) {
    if (clustered.contains(triple[0])) {
      return FarEndWatch.CONNECTED_OHMS;
    }
    double loop = triple[1] == triple[2] ? 1.05 : 1.0;
    return Math.min(coarseOhms[triple[0]], FarEndWatch.CONNECTED_OHMS) * loop + 1;
  }

  @Override
  public void accept(List<Reading> readings) {
    List<int[]> repeats = new ArrayList<>();
    for (int k = 0; k < pending.size(); k++) {
      List<Reading> own =
          List.copyOf(readings.subList(RatioReader.PROBES * k, RatioReader.PROBES * (k + 1)));
      @Nullable Quantity ohms = reader.ohms(own);
      int[] t = pending.get(k);
      if (ohms == null) {
        overloaded.add(t);
        repeats.add(t);
      } else if (!again && reader.disturbed(own, ohms.value())) {
        repeats.add(t);
      } else {
        (loops.contains(t) ? alongBridges : observations)
            .add(new Observation(t[0], t[1], t[2], ohms, own));
      }
    }
    // Hum beyond what was allowed for: once more, at the least gain. A voltage that came or went in
    // the middle: once more as before.
    pending = again ? List.of() : repeats;
    again = true;
  }

  /**
   * Ports that neither hang on the plug nor have a path to one that does, M among them: held at
   * common. Left floating they would follow the driven ports' steps by capacitance, beyond the
   * interlock's window; held with a path to the plug they would take part of the current.
   */
  private static int quiet(List<Integer> connected, OpenResult open, double[] coarseOhms) {
    int floating = Ports.mask(connected);
    for (int p : open.ports()) {
      // Seen now, too: a stub behind a break may join a port to the plug.
      double least = Math.min(open.apartOhms(p), coarseOhms[p]);
      floating |= least <= TouchPhase.QUIET_OHMS ? Ports.bit(p) : 0;
    }
    return Ports.ALL & ~floating;
  }

  /** Mask of the ports held at common. */
  int guard() {
    return guard;
  }

  /** Whether what joins conductors is the equipment, at the near end. */
  boolean landed() {
    return landed;
  }

  List<Observation> observations() {
    return observations;
  }

  /** Readings whose current goes through a bridge; not part of the star. */
  List<Observation> alongBridges() {
    return alongBridges;
  }

  /** Resistance of each port to all others with the plug on, rough. */
  double[] coarseOhms() {
    return coarseOhms.clone();
  }

  /** Triples whose readings overloaded or carried no current; for a phase that is over. */
  public int lost() {
    return triples.size() + loops.size() - observations.size() - alongBridges.size();
  }
}
