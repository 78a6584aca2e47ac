package bellwire.analysis.survey;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Watches the far end by coarse rounds: something has changed, fingers are on the bare ends, a plug
 * is on and has been still for long enough.
 */
public final class FarEndWatch {
  /** A conductor nearer than this to the others hangs on the plug. */
  static final double CONNECTED_OHMS = 3000;

  private static final double SKIN_OHMS = 5e6;

  /** Beyond this a coarse round reads hum rather than resistance. */
  private static final double COARSE_OHMS = 1e6;

  /** On the coded plug most conductors are farther than this from all the others. */
  private static final double TIE_OHMS = 42;

  /** A coarse round reads what is lower than this, whatever the hum. */
  private static final double CERTAIN_OHMS = 1e6;

  private static final double GONE = 2;
  private static final double CONTACT_OHMS = 3;

  /**
   * What a round shows.
   *
   * @param kind of far end, null while it can't be told
   * @param connected ports that hang on the plug
   * @param settled unchanged for the dwell time and nothing in the way
   * @param words for the technician
   */
  public record Sight(
      @Nullable FarEndKind kind, List<Integer> connected, boolean settled, String words) {}

  private final BoardModel board;
  private final OpenResult open;
  private final List<Integer> ports;
  private final long dwellMicros;
  private final List<List<Integer>> touching;
  private double[] single = new double[0];
  private double[] last = new double[0];
  private long since;
  private @Nullable FarEndKind kind;

  /**
   * @param open what the far end showed when nothing was on it
   * @param dwellMicros how long a plug must be still
   */
  public FarEndWatch(BoardModel board, OpenResult open, long dwellMicros) {
    this.board = board;
    this.open = open;
    this.dwellMicros = dwellMicros;
    ports = open.ports();
    // With nothing else landed there is nothing to measure a cluster against.
    touching =
        allTouch()
            ? List.of()
            : open.clusters().stream()
                .filter(c -> c.size() > 1 && c.size() < ports.size())
                .toList();
  }

  /**
   * One round of watching: every port against all the others; and every cluster, driven as one,
   * against the rest, as only that shows whether a cluster hangs on a plug.
   */
  public List<Probe> round() {
    int mask = Ports.mask(ports);
    List<Probe> probes = new ArrayList<>(RestPhase.coarseRound(ports, mask));
    for (List<Integer> cluster : touching) {
      probes.addAll(RestPhase.coarseLook(Ports.mask(cluster), mask));
    }
    return probes;
  }

  /**
   * @param readings of one {@link #round}
   * @param micros when it ended
   */
  public Sight observe(List<Reading> readings, long micros) {
    int own = 2 * ports.size();
    single = RestPhase.coarseOhms(board, ports, readings.subList(0, own));
    double[] ohms = single.clone();
    for (int c = 0; c < touching.size(); c++) {
      List<Integer> cluster = touching.get(c);
      List<Reading> look = readings.subList(own + 2 * c, own + 2 * c + 2);
      double read = RestPhase.coarseOhms(board, look, ports.size() - cluster.size());
      cluster.forEach(p -> ohms[p] = read);
    }
    double[] now = Arrays.copyOf(ohms, 2 * Ports.COUNT);
    System.arraycopy(single, 0, now, Ports.COUNT, Ports.COUNT);
    if (last.length == 0 || !alike(last, now)) {
      since = micros;
      kind = null;
    }
    last = now;
    return sight(ohms, micros - since >= dwellMicros);
  }

  /** What a port, with all that touches it, had to the rest before anything was on the far end. */
  private double apartOhms(int port) {
    return allTouch() ? open.restOhms()[port] : open.apartOhms(port);
  }

  private boolean allTouch() {
    // Bare metal by itself is no conductor that a plug could join.
    return open.clusters().stream().filter(c -> !c.equals(List.of(Ports.METAL))).count() == 1;
  }

  private Sight sight(double[] ohms, boolean still) {
    List<Integer> connected = new ArrayList<>();
    List<Integer> skin = new ArrayList<>();
    for (int port : open.conductors()) {
      boolean news = ohms[port] < 0.7 * apartOhms(port);
      if (ohms[port] < CONNECTED_OHMS && (news || allTouch())) {
        connected.add(port);
      } else if (news && ohms[port] < SKIN_OHMS) {
        skin.add(port);
      }
    }
    List<Integer> plain = connected.stream().filter(p -> open.touching(p).isEmpty()).toList();
    // Where all touch they are low with nothing on the far end, too; a plug pulls them lower still.
    boolean pulled = connected.stream().anyMatch(p -> ohms[p] < 0.7 * apartOhms(p));
    if (plain.isEmpty() && !pulled) {
      return skin.isEmpty()
          ? new Sight(FarEndKind.OPEN, List.of(), still, "far end open")
          : new Sight(null, List.of(), false, "skin on bare ends at " + Ports.names(skin));
    }
    if (!skin.isEmpty() && ohms[skin.get(0)] > 10 * CONNECTED_OHMS && disturbed(ohms, skin)) {
      return new Sight(null, connected, false, "skin on bare ends at " + Ports.names(skin));
    }
    List<Integer> telling = plain.isEmpty() ? connected : plain;
    // What is as it was is what it was: a joint may make a tie plug read about the limit.
    if (kind == null) {
      // The middle one: a source of a few ohms between two ports makes these two low.
      double[] values = telling.stream().mapToDouble(p -> ohms[p]).sorted().toArray();
      kind = values[values.length / 2] < TIE_OHMS ? FarEndKind.TIE : FarEndKind.CODED;
    }
    String words =
        (kind == FarEndKind.TIE ? "tie plug" : "coded plug")
            + " on "
            + connected.size()
            + " conductors";
    return new Sight(kind, connected, still, words);
  }

  /**
   * A leakage of the cable itself also pulls a port down once a plug is on; skin does so by far
   * less than its own leakage explains.
   */
  private boolean disturbed(double[] ohms, List<Integer> skin) {
    return skin.stream().anyMatch(p -> ohms[p] < 0.3 * apartOhms(p));
  }

  /**
   * Whether two rounds show the same far end. Bare metal does not count: it gathers the hum of all
   * conductors, and no plug is on it. Nor do differences among resistances that a coarse round
   * can't tell from none.
   */
  static boolean alike(double[] a, double[] b) {
    for (int port = 0; port < a.length; port++) {
      if (port % Ports.COUNT == Ports.METAL) {
        continue;
      }
      double x = a[port];
      double y = b[port];
      boolean bothHigh = x > COARSE_OHMS && y > COARSE_OHMS;
      double band = Math.max(x, y) > CONNECTED_OHMS ? 0.3 * Math.max(x, y) : 0.01 * x + 3;
      if (!bothHigh && Math.abs(x - y) > band) {
        return false;
      }
    }
    return true;
  }

  /**
   * The last round's resistances by port, a cluster's to the rest in place of its ports'; after
   * these 17 those of the single ports. For comparing the far end before and after a phase.
   */
  public double[] lastOhms() {
    return Arrays.copyOf(last, last.length);
  }

  /** The last round's resistances from each port to all the others, whatever it touches. */
  public double[] singleOhms() {
    return single.clone();
  }

  /** Whether the far end of the last round is the one that {@code ohms} showed. */
  public boolean unchangedSince(double[] ohms) {
    return alike(ohms, last);
  }

  /**
   * Whether something that the open phase found is not there any more: then it was no fault, but
   * something on the far end, or a hand. Asked only of what a coarse round can tell.
   */
  public boolean gone() {
    return ports.stream()
        .anyMatch(
            p -> {
              double found = open.foundOhms(p);
              return found < CERTAIN_OHMS && single[p] > GONE * found + CONTACT_OHMS;
            });
  }
}
