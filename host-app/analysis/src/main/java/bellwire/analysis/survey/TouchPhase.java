package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Ports that a low resistance joins: each pair of the suspects is measured in four-terminal
 * connection, both polarities, all other ports floating. What is read is the resistance distance of
 * the pair.
 */
public final class TouchPhase implements Phase {
  /** Two ports closer than this are one cluster, driven together from then on. */
  public static final double CLUSTER_OHMS = 1000;

  /**
   * A port this far from all others takes no current that matters, and is held at common: left
   * floating it would follow its neighbours' steps by capacitance, beyond the interlock's window.
   */
  static final double QUIET_OHMS = 1e5;

  /**
   * Up to so many suspects every pair is read at the PRECISE pace; more would outlast the phase.
   */
  private static final int PRECISE_SUSPECTS = 6;

  private final RatioReader reader;
  private final double[] coarseOhms;
  private final List<int[]> pairs = new ArrayList<>();
  private final @Nullable Quantity[][] ohms = new @Nullable Quantity[Ports.COUNT][Ports.COUNT];
  private final List<List<Integer>> clusters = new ArrayList<>();
  private final Pace pace;
  private final int quiet;
  private boolean over;

  /**
   * @param present ports with copper on them
   * @param coarseOhms resistance of each to all the others
   */
  public TouchPhase(BoardModel board, List<Integer> present, double[] coarseOhms) {
    reader = new RatioReader(board);
    this.coarseOhms = coarseOhms;
    List<Integer> suspects = present.stream().filter(p -> coarseOhms[p] < CLUSTER_OHMS).toList();
    pace = suspects.size() <= PRECISE_SUSPECTS ? Pace.PRECISE : Pace.QUICK;
    for (int a = 0; a < suspects.size(); a++) {
      for (int b = a + 1; b < suspects.size(); b++) {
        pairs.add(new int[] {suspects.get(a), suspects.get(b)});
      }
    }
    quiet = Ports.mask(present.stream().filter(p -> coarseOhms[p] > QUIET_OHMS).toList());
    present.forEach(p -> clusters.add(new ArrayList<>(List.of(p))));
    over = pairs.isEmpty();
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    if (!over) {
      for (int[] pair : pairs) {
        // Another port may be what makes this one low; its partner's distance is then larger than
        // the coarse reading.
        double expected = Math.max(coarseOhms[pair[0]], coarseOhms[pair[1]]) * 2 + 5;
        probes.addAll(
            reader.probes(
                pair[0], pair[1], quiet, Look.pair(pair[0], pair[1]), expected, pace, 8000));
      }
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    over = true;
    for (int k = 0; k < pairs.size(); k++) {
      Quantity read =
          reader.ohms(readings.subList(RatioReader.PROBES * k, RatioReader.PROBES * (k + 1)));
      if (read != null && read.value() < 5 * CLUSTER_OHMS) {
        int a = pairs.get(k)[0];
        int b = pairs.get(k)[1];
        ohms[a][b] = read;
        ohms[b][a] = read;
        if (read.value() < CLUSTER_OHMS) {
          merge(a, b);
        }
      }
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
   * was found.
   */
  public @Nullable Quantity ohms(int a, int b) {
    return ohms[a][b];
  }
}
