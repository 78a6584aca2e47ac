package bellwire.analysis.survey;

import bellwire.analysis.network.Network;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the open phase found.
 *
 * @param ports those with copper on them, M last if it is clipped
 * @param clusterFarads capacitance of each cluster to all other ports, the ports' stray capacitance
 *     included, by its index; null where a leakage hides it, and for metal. An error common to all
 *     of them, 1 % of each, is not in u
 * @param strayFarads of one port, without a conductor
 * @param restOhms rough resistance to all others by port
 * @param clusters ports that a low resistance joins
 * @param distances resistance distance of two ports of one cluster, 17 × 17, null where not read
 * @param leaks conductance between two clusters, by their index
 * @param noiseFactor the converter's noise as the repeats showed it, over what the board's
 *     description says; at least 1
 * @param network all of it as conductances between the 17 ports, without the board's own loads
 */
public record OpenResult(
    List<Integer> ports,
    List<@Nullable Quantity> clusterFarads,
    Quantity strayFarads,
    double[] restOhms,
    List<List<Integer>> clusters,
    @Nullable Quantity[][] distances,
    Leak[][] leaks,
    Network network,
    double noiseFactor) {

  private static final double HIDING_OHMS = 200;

  /**
   * A leakage larger than this moves the reading of an arm by more than a conductor's resistance.
   */
  private static final double LEAKING_SIEMENS = 1e-6;

  /** Less than any two arms of a full coded plug have between them. */
  private static final double JOINING_SIEMENS = 1e-5;

  /** Capacitance of a conductor that touches no other; null where it does, or it is not known. */
  public @Nullable Quantity farads(int port) {
    return touching(port).isEmpty() ? clusterFarads.get(clusterOf(port)) : null;
  }

  public boolean metalClipped() {
    return ports.contains(Ports.METAL);
  }

  /** The conductors' ports, without M. */
  public List<Integer> conductors() {
    return ports.stream().filter(p -> p != Ports.METAL).toList();
  }

  public int clusterOf(int port) {
    for (int c = 0; c < clusters.size(); c++) {
      if (clusters.get(c).contains(port)) {
        return c;
      }
    }
    throw new IllegalArgumentException("port=" + port);
  }

  /**
   * Ports that hide this one's arm: so near that the two arms of a plug cannot be told apart, or of
   * a cluster whose network is not known well enough to take it out of the reading: more than two
   * ports, or a leakage to others that may sit at any of them. A farther one only widens the
   * uncertainty.
   */
  public List<Integer> hiding(int port) {
    List<Integer> fellows = touching(port);
    if (fellows.size() > 1 || leaks(clusterOf(port))) {
      return fellows;
    }
    return fellows.stream()
        .filter(
            other -> {
              Quantity ohms = distances[port][other];
              return ohms == null || ohms.value() < HIDING_OHMS;
            })
        .toList();
  }

  private boolean leaks(int cluster) {
    for (int other = 0; other < clusters.size(); other++) {
      Leak leak = leaks[cluster][other];
      if (other != cluster && leak.detected() && leak.siemens() > LEAKING_SIEMENS) {
        return true;
      }
    }
    return false;
  }

  /** Other ports of the same cluster. */
  public List<Integer> touching(int port) {
    return clusters.get(clusterOf(port)).stream().filter(p -> p != port).toList();
  }

  /** What was detected between the clusters of two ports, siemens; 0 within a cluster. */
  double leakSiemens(int a, int b) {
    Leak leak = leaks[clusterOf(a)][clusterOf(b)];
    return clusterOf(a) != clusterOf(b) && leak.detected() ? leak.siemens() : 0;
  }

  /** Other ports of the same cluster, and all of those that a lower resistance joins to it. */
  List<Integer> bridged(int port, double ohms) {
    int own = clusterOf(port);
    return ports.stream()
        .filter(p -> p != port)
        .filter(p -> clusterOf(p) == own || leaks[own][clusterOf(p)].siemens() > 1 / ohms)
        .toList();
  }

  /** Resistance from a port, with all that touches it, to the rest; rough, at most 1 Gohm. */
  double apartOhms(int port) {
    if (touching(port).isEmpty()) {
      return restOhms[port];
    }
    double siemens = 1e-9;
    for (Leak leak : leaks[clusterOf(port)]) {
      siemens += leak.detected() ? leak.siemens() : 0;
    }
    return 1 / siemens;
  }

  /**
   * Resistance from a port to all the others together, by the finest reading there is: where its
   * leakages were measured theirs, otherwise the rough one.
   */
  double foundOhms(int port) {
    if (!touching(port).isEmpty()) {
      return restOhms[port];
    }
    double siemens = 0;
    for (Leak leak : leaks[clusterOf(port)]) {
      siemens += leak.detected() ? leak.siemens() : 0;
    }
    return Math.min(restOhms[port], 1 / siemens);
  }

  /**
   * The most conductors that hang together, each of them nearer than this to all the others. Pairs
   * that touch are pairs; a plug makes all of them one.
   */
  public int mostJoined(double ohms) {
    int most = 0;
    int seen = 0;
    for (int port : ports) {
      if ((seen & Ports.bit(port)) == 0) {
        int together = together(port);
        seen |= together;
        int joined = 0;
        for (int p : Ports.list(together & ~Ports.bit(Ports.METAL))) {
          joined += restOhms[p] < ohms ? 1 : 0;
        }
        most = Math.max(most, joined);
      }
    }
    return most;
  }

  /** Mask of all that paths join to this port. */
  private int together(int port) {
    int mask = Ports.bit(port);
    for (int before = 0; before != mask; ) {
      before = mask;
      for (int a : Ports.list(before)) {
        for (int b : ports) {
          mask |= network.between(a, b) > JOINING_SIEMENS ? Ports.bit(b) : 0;
        }
      }
    }
    return mask;
  }
}
