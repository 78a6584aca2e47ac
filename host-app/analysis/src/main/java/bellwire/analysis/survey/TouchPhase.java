package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Ports that a low resistance joins. A quick look at each pair of suspects, the others held at
 * common, says which belong together; within such a cluster each pair is then measured in
 * four-terminal connection, both polarities, its fellows floating. What is read is the resistance
 * distance of the pair.
 */
public final class TouchPhase implements Phase {
  /** Two ports closer than this are one cluster, driven together from then on. */
  public static final double CLUSTER_OHMS = 1000;

  /** A port this far from all others takes no current that matters. */
  static final double QUIET_OHMS = 1e5;

  /**
   * More pairs than this are read at the QUICK pace, to stay within the time of the phase; it
   * rejects hum only of the frequency it was told.
   */
  private static final int PRECISE_PAIRS = 15;

  /**
   * Windings joined by copper at one end share a step's current by their inductances and only then
   * by their resistances, with (L1 + L2)/(R1 + R2), 0.15 s with 1.6 H and 11 ohm. What reads as
   * copper is read again when that is over.
   */
  private static final double SLOW_OHMS = 5;

  /** Readings of 50 ms that go by first; a step's own settling is at most 16 ms. */
  private static final int SLOW_READINGS = 10;

  private static final int MOST_SLOW = 20;

  private final BoardModel board;
  private final boolean windings;
  private final RatioReader reader;
  private final double[] coarseOhms;
  private List<List<List<Integer>>> suspects = List.of();
  private final List<int[]> pairs = new ArrayList<>();
  private final @Nullable Quantity[][] ohms = new @Nullable Quantity[Ports.COUNT][Ports.COUNT];
  private final List<List<Integer>> clusters = new ArrayList<>();
  private boolean softlyRead;
  private boolean looked;
  private boolean over;

  /**
   * @param present ports with copper on them
   * @param coarseOhms resistance of each to all the others
   * @param windings whether a winding is among what joins them: then a step of 2 V would make the
   *     ports that float on it ring beyond the interlock's window, and the pairs are read softly
   */
  public TouchPhase(
      BoardModel board, List<Integer> present, double[] coarseOhms, boolean windings) {
    this.board = board;
    this.windings = windings;
    reader = new RatioReader(board);
    this.coarseOhms = coarseOhms;
    present.forEach(p -> clusters.add(new ArrayList<>(List.of(p))));
    suspects = suspects();
    over = suspects.isEmpty();
  }

  /** Every two clusters that a low resistance may join. */
  private List<List<List<Integer>>> suspects() {
    List<List<Integer>> low =
        clusters.stream()
            .filter(c -> c.stream().anyMatch(p -> coarseOhms[p] < CLUSTER_OHMS))
            .toList();
    List<List<List<Integer>>> pairs = new ArrayList<>();
    for (int a = 0; a < low.size(); a++) {
      for (int b = a + 1; b < low.size(); b++) {
        pairs.add(List.of(List.copyOf(low.get(a)), List.copyOf(low.get(b))));
      }
    }
    return pairs;
  }

  @Override
  public List<Probe> next() {
    if (over) {
      return List.of();
    }
    return windings ? soft() : looked ? distances() : looks();
  }

  /** Every suspect pair, the other suspects floating. */
  private List<Probe> soft() {
    int low = 0;
    for (List<List<Integer>> pair : suspects) {
      low |= Ports.mask(pair.get(0)) | Ports.mask(pair.get(1));
    }
    Pace pace = suspects.size() <= PRECISE_PAIRS || softlyRead ? Pace.PRECISE : Pace.QUICK;
    List<Probe> probes = new ArrayList<>();
    for (List<List<Integer>> pair : softlyRead ? slow() : suspects) {
      int a = pair.get(0).get(0);
      int b = pair.get(1).get(0);
      List<Probe> both = SoftReader.probes(a, b, low, pace);
      if (softlyRead) {
        probes.add(both.get(0).at(Pace.PRECISE, SLOW_READINGS));
      }
      probes.addAll(both);
    }
    return probes;
  }

  /** Pairs that read as copper. */
  private List<List<List<Integer>>> slow() {
    return suspects.stream()
        .filter(
            pair -> {
              Quantity read = ohms[pair.get(0).get(0)][pair.get(1).get(0)];
              return read != null && read.value() < SLOW_OHMS;
            })
        .limit(MOST_SLOW)
        .toList();
  }

  private void softly(List<Reading> readings) {
    SoftReader soft = new SoftReader(board);
    List<List<List<Integer>>> asked = softlyRead ? slow() : suspects;
    for (int k = 0; k < asked.size(); k++) {
      int first = softlyRead ? 3 * k + 1 : 2 * k;
      Quantity read = soft.ohms(readings.get(first), readings.get(first + 1));
      int a = asked.get(k).get(0).get(0);
      int b = asked.get(k).get(1).get(0);
      if (read != null && read.value() < CLUSTER_OHMS) {
        merge(a, b);
        ohms[a][b] = read;
        ohms[b][a] = read;
      }
    }
  }

  private List<Probe> looks() {
    List<Probe> probes = new ArrayList<>();
    Pace pace = suspects.size() <= PRECISE_PAIRS ? Pace.PRECISE : Pace.QUICK;
    for (List<List<Integer>> pair : suspects) {
      int drive = Ports.mask(pair.get(0));
      int returned = Ports.mask(pair.get(1));
      int guard = Ports.ALL & ~(drive | returned);
      Probe current =
          new Probe(drive, returned, guard, true, End.LOW, Look.REFERENCE, 4, pace, 1000, 1, false);
      probes.add(current);
      probes.add(current.looking(Look.terminal(pair.get(0).get(0)), 1));
    }
    return probes;
  }

  private List<Probe> distances() {
    List<Probe> probes = new ArrayList<>();
    Pace pace = pairs.size() <= PRECISE_PAIRS ? Pace.PRECISE : Pace.QUICK;
    for (int[] pair : pairs) {
      // Another port may be what makes this one low; its partner's distance is then larger than the
      // coarse reading.
      double expected = Math.max(coarseOhms[pair[0]], coarseOhms[pair[1]]) * 2 + 5;
      Look look = Look.pair(pair[0], pair[1]);
      probes.addAll(reader.probes(pair[0], pair[1], quiet(pair[0]), look, expected, pace, 1000));
    }
    return probes;
  }

  /**
   * The ports of other clusters, as far as they take no current that matters, are held at common:
   * left floating they would follow their neighbours' steps by capacitance, beyond the interlock's
   * window.
   */
  private int quiet(int port) {
    return quiet(clusterOf(port), clusters, coarseOhms);
  }

  /** Mask of the ports held at common while the distances within a cluster are read. */
  static int quiet(List<Integer> own, List<List<Integer>> clusters, double[] coarseOhms) {
    int floating = Ports.mask(own);
    for (List<Integer> cluster : clusters) {
      int port = cluster.get(0);
      if (cluster.size() == 1 && coarseOhms[port] <= QUIET_OHMS) {
        floating |= Ports.bit(port);
      }
    }
    return Ports.ALL & ~floating;
  }

  @Override
  public void accept(List<Reading> readings) {
    if (windings) {
      softly(readings);
      over = softlyRead || slow().isEmpty();
      softlyRead = true;
      return;
    }
    if (!looked) {
      look(readings);
      return;
    }
    over = true;
    for (int k = 0; k < pairs.size(); k++) {
      Quantity read =
          reader.ohms(readings.subList(RatioReader.PROBES * k, RatioReader.PROBES * (k + 1)));
      if (read != null) {
        int a = pairs.get(k)[0];
        int b = pairs.get(k)[1];
        // The returned port's divider carries a little of the current past the reference.
        double share = (board.lowReferenceOhms() + board.pathOhms()) / board.dividerOhms();
        Quantity corrected = Quantity.ohms(read.value() / (1 + share), read.u());
        ohms[a][b] = corrected;
        ohms[b][a] = corrected;
      }
    }
  }

  /**
   * What joins two clusters may be hidden as long as a third is held at common beside one of them:
   * once clusters have grown they are looked at again, as wholes.
   */
  private void look(List<Reading> readings) {
    int before = clusters.size();
    for (int k = 0; k < suspects.size(); k++) {
      double amps = readings.get(2 * k).volts() / board.lowReferenceOhms();
      double volts = readings.get(2 * k + 1).volts();
      if (amps > 1e-6 && volts / amps < CLUSTER_OHMS + board.lowReferenceOhms()) {
        merge(suspects.get(k).get(0).get(0), suspects.get(k).get(1).get(0));
      }
    }
    suspects = clusters.size() < before ? suspects() : List.of();
    looked = suspects.isEmpty();
    if (looked) {
      for (List<Integer> cluster : clusters) {
        for (int a : cluster) {
          cluster.stream().filter(b -> a < b).forEach(b -> pairs.add(new int[] {a, b}));
        }
      }
      over = pairs.isEmpty();
    }
  }

  private void merge(int a, int b) {
    List<Integer> first = clusterOf(a);
    List<Integer> second = clusterOf(b);
    if (first != second) {
      first.addAll(second);
      first.sort(null);
      clusters.remove(second);
    }
  }

  private List<Integer> clusterOf(int port) {
    for (List<Integer> cluster : clusters) {
      if (cluster.contains(port)) {
        return cluster;
      }
    }
    throw new IllegalArgumentException("port=" + port);
  }

  /** The ports in clusters; a port that nothing touches is one of its own. */
  public List<List<Integer>> clusters() {
    return List.copyOf(clusters);
  }

  /**
   * Resistance distance of two ports as seen at their terminals, clamps included; null where none
   * was read.
   */
  public @Nullable Quantity ohms(int a, int b) {
    return ohms[a][b];
  }
}
