package bellwire.analysis.survey;

import bellwire.analysis.network.Network;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The far end hanging open: which ports have copper on them, what touches, what leaks. Four parts,
 * each asking only for what the one before left in doubt; then the capacitances.
 */
public final class OpenPhase implements Phase {
  /** What is smaller within a cluster is the noise of its distances. */
  private static final double LEAST_SIEMENS = 1e-6;

  private final BoardModel board;
  private final int declared;
  private final int known;
  private final PresencePhase presence;
  private @Nullable RestPhase rest;
  private @Nullable WindingPhase windings;
  private @Nullable TouchPhase touch;
  private @Nullable PairPhase pairs;
  private @Nullable ChargePhase charge;
  private Phase current;
  private int present;
  private Rests rests = new Rests(0);

  /**
   * @param candidates mask of the ports that may have copper on them, M among them
   * @param declared those that the technician says have; they count as present whatever is seen
   */
  public OpenPhase(BoardModel board, int candidates, int declared) {
    this(board, candidates, declared, 0);
  }

  /**
   * @param windings mask of the ports that are known to hang on a winding: they are not let go of
   *     to be charged, as hum keeps a current in it
   */
  public OpenPhase(BoardModel board, int candidates, int declared, int windings) {
    this.board = board;
    this.declared = declared | windings;
    known = windings;
    presence = new PresencePhase(board, (candidates | declared) & ~windings);
    current = presence;
  }

  @Override
  public List<Probe> next() {
    while (true) {
      List<Probe> probes = rests.between(current.next());
      if (!probes.isEmpty() || !advance()) {
        return probes;
      }
    }
  }

  private boolean advance() {
    if (windings == null) {
      present = presence.present() | declared;
      windings = new WindingPhase(board, joined(), present);
      current = windings;
    } else if (rest == null) {
      rests = new Rests(joined() & ~windings.copper());
      rest = new RestPhase(board, present);
      current = rest;
    } else if (touch == null) {
      touch = new TouchPhase(board, Ports.list(present), rest.coarse(), windings() != 0);
      current = touch;
    } else if (pairs == null) {
      pairs = new PairPhase(board, touch.clusters(), rest);
      current = pairs;
    } else if (charge == null) {
      charge = new ChargePhase(board, touch.clusters());
      current = charge;
    } else {
      return false;
    }
    return true;
  }

  @Override
  public void accept(List<Reading> readings) {
    current.accept(rests.without(readings));
  }

  /** Mask of the ports that need rests, see {@link Rests}. */
  public int restless() {
    return joined() & ~(windings == null ? 0 : windings.copper());
  }

  private int joined() {
    return presence.joined() | known;
  }

  /** Mask of the ports with a winding on them; call when the phase is over. */
  public int windings() {
    return known | (windings == null ? 0 : windings.windings());
  }

  /** Mask of the ports that hardly came up when they were charged; see {@link PresencePhase}. */
  public int slow() {
    return presence.slow() | known;
  }

  /** What the phase found; call when it is over. */
  public OpenResult result() {
    if (rest == null || touch == null || pairs == null || charge == null) {
      throw new IllegalStateException("the open phase is not over");
    }
    List<Integer> ports = Ports.list(present);
    return new OpenResult(
        ports,
        charge.farads(),
        new Quantity(board.strayFarads(), board.strayTolerance() / Math.sqrt(3), "F"),
        rest.coarse(),
        touch.clusters(),
        distances(),
        leaks(),
        network(),
        rest.noiseFactor());
  }

  private @Nullable Quantity[][] distances() {
    @Nullable Quantity[][] ohms = new @Nullable Quantity[Ports.COUNT][Ports.COUNT];
    for (int a = 0; a < Ports.COUNT; a++) {
      for (int b = 0; b < Ports.COUNT; b++) {
        ohms[a][b] = touch().ohms(a, b);
      }
    }
    return ohms;
  }

  private Leak[][] leaks() {
    int n = touch().clusters().size();
    Leak[][] leaks = new Leak[n][n];
    for (int a = 0; a < n; a++) {
      for (int b = 0; b < n; b++) {
        leaks[a][b] = a == b ? new Leak(0, 0) : pairs().between(a, b);
      }
    }
    return leaks;
  }

  /**
   * All ports as one network: between clusters the leakages, each carried by the clusters' first
   * ports and so no path between the ports of one; within a cluster the network that its resistance
   * distances make. Theory (7).
   */
  private Network network() {
    List<List<Integer>> clusters = touch().clusters();
    Network network = new Network(Ports.COUNT);
    for (int a = 0; a < clusters.size(); a++) {
      for (int b = a + 1; b < clusters.size(); b++) {
        Leak leak = pairs().between(a, b);
        if (pairs().measured(a, b) && leak.detected()) {
          network.join(clusters.get(a).get(0), clusters.get(b).get(0), leak.siemens());
        }
      }
    }
    for (List<Integer> cluster : clusters) {
      if (cluster.size() > 1) {
        within(cluster, network);
      }
    }
    return network;
  }

  private void within(List<Integer> cluster, Network network) {
    int m = cluster.size();
    double[][] ohms = new double[m][m];
    for (int i = 0; i < m; i++) {
      for (int j = 0; j < m; j++) {
        Quantity read = touch().ohms(cluster.get(i), cluster.get(j));
        // A pair of one cluster without a reading of its own is joined through the others.
        ohms[i][j] =
            i == j ? 0 : read == null ? 2 * TouchPhase.CLUSTER_OHMS : Math.max(read.value(), 1e-4);
      }
    }
    Network inside;
    try {
      inside = Network.ofResistanceDistances(ohms);
    } catch (IllegalArgumentException e) {
      // No network has such distances: the copper moved, or a foreign voltage came meanwhile. That
      // the ports touch is known; how, is not.
      joinAll(cluster, network);
      return;
    }
    for (int i = 0; i < m; i++) {
      for (int j = i + 1; j < m; j++) {
        double siemens = inside.between(i, j);
        if (siemens > LEAST_SIEMENS) {
          network.join(cluster.get(i), cluster.get(j), siemens);
        }
      }
    }
  }

  private static void joinAll(List<Integer> cluster, Network network) {
    for (int port : cluster.subList(1, cluster.size())) {
      network.join(cluster.get(0), port, 1 / TouchPhase.CLUSTER_OHMS);
    }
  }

  private TouchPhase touch() {
    if (touch == null) {
      throw new IllegalStateException("the open phase is not over");
    }
    return touch;
  }

  private PairPhase pairs() {
    if (pairs == null) {
      throw new IllegalStateException("the open phase is not over");
    }
    return pairs;
  }
}
