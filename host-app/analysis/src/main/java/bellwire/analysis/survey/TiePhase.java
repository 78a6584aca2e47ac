package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Who is joined to whom by ties. One conductor is driven, one returned, all others at common: a
 * conductor's own tie takes nearly all of its current to its partner. Conductors that the cable
 * itself joins go as one. Two that have found each other are not looked at again. Then the ports of
 * each group are read against one another in four-terminal connection, their fellows floating.
 *
 * <p>Unlike the look for what touches, every reading is precise: with a tie's partner at common the
 * driven conductor stands some millivolts above it, no more than hum does.
 */
public final class TiePhase implements Phase {
  /** Two plain conductors that are tied by themselves, with up to some hundred ohms, carry more. */
  private static final double PLAIN_AMPS = 5e-4;

  /**
   * Where others at common share the driven current, by the tie of one that touches or by a third
   * in the same clip: 80 µA and more. A leakage may carry as much; its distance tells it.
   */
  private static final double SHARED_AMPS = 4e-5;

  private static final int SETTLE_MICROS = 1000;

  private final BoardModel board;
  private final OpenResult open;
  private final RatioReader reader;
  private final double[] coarseOhms;
  private final List<List<Integer>> units = new ArrayList<>();
  private final Set<Integer> paired = new LinkedHashSet<>();
  private final List<List<Integer>> groups = new ArrayList<>();
  private final @Nullable Quantity[][] ohms = new @Nullable Quantity[Ports.COUNT][Ports.COUNT];
  private List<int[]> asked = List.of();
  private List<int[]> pairs = List.of();
  private int turn;
  private boolean looked;
  private boolean over;

  /**
   * @param open the cable without ties
   * @param coarseOhms resistance of each port to all the others, with them
   */
  public TiePhase(BoardModel board, OpenResult open, double[] coarseOhms) {
    this.board = board;
    this.open = open;
    reader = new RatioReader(board.noisier(open.noiseFactor()));
    this.coarseOhms = coarseOhms;
    List<List<Integer>> shorted = TieRound.shorted(open);
    units.addAll(shorted);
    open.ports().stream()
        .filter(p -> shorted.stream().noneMatch(g -> g.contains(p)))
        .forEach(p -> units.add(List.of(p)));
    units.removeIf(u -> u.stream().noneMatch(p -> coarseOhms[p] < TouchPhase.CLUSTER_OHMS));
    units.forEach(u -> groups.add(new ArrayList<>(u)));
  }

  @Override
  public List<Probe> next() {
    if (over) {
      return List.of();
    }
    if (!looked) {
      asked = looks();
      looked = asked.isEmpty();
    }
    if (!looked) {
      return asked.stream().map(this::look).toList();
    }
    pairs = pairsWithin();
    over = pairs.isEmpty();
    List<Probe> probes = new ArrayList<>();
    for (int[] p : pairs) {
      double expected = Math.max(coarseOhms[p[0]], coarseOhms[p[1]]) * 2 + 5;
      Look look = Look.pair(p[0], p[1]);
      int guard = Ports.ALL & ~floating(p[0]);
      probes.addAll(reader.probes(p[0], p[1], guard, look, expected, Pace.PRECISE, SETTLE_MICROS));
    }
    return probes;
  }

  /** Of the next unit whose partner is unknown, each other such; last, who found none with all. */
  private List<int[]> looks() {
    int n = units.size();
    for (; turn < 2 * n; turn++) {
      int a = turn % n;
      boolean again = turn >= n;
      if (paired.contains(a)) {
        continue;
      }
      List<int[]> looks = new ArrayList<>();
      for (int b = again ? 0 : a + 1; b < n; b++) {
        if (b != a && (again ? paired.contains(b) : !paired.contains(b))) {
          looks.add(new int[] {a, b});
        }
      }
      if (!looks.isEmpty()) {
        turn++;
        return looks;
      }
    }
    return List.of();
  }

  private Probe look(int[] pair) {
    int drive = Ports.mask(units.get(pair[0]));
    int returned = Ports.mask(units.get(pair[1]));
    return new Probe(
        drive,
        returned,
        Ports.ALL & ~(drive | returned),
        true,
        End.LOW,
        Look.REFERENCE,
        4,
        Pace.PRECISE,
        SETTLE_MICROS,
        1,
        false);
  }

  private List<int[]> pairsWithin() {
    List<int[]> within = new ArrayList<>();
    for (List<Integer> group : groups) {
      for (int a : group) {
        group.stream().filter(b -> a < b).forEach(b -> within.add(new int[] {a, b}));
      }
    }
    return within;
  }

  @Override
  public void accept(List<Reading> readings) {
    if (looked) {
      distances(readings);
      over = true;
      return;
    }
    for (int k = 0; k < asked.size(); k++) {
      int a = asked.get(k)[0];
      int b = asked.get(k)[1];
      boolean plain = units.get(a).size() == 1 && units.get(b).size() == 1;
      double amps = readings.get(k).volts() / board.lowReferenceOhms();
      if (amps > SHARED_AMPS) {
        merge(units.get(a).get(0), units.get(b).get(0));
      }
      if (plain && amps > PLAIN_AMPS) {
        paired.add(a);
        paired.add(b);
      }
    }
  }

  private void distances(List<Reading> readings) {
    for (int k = 0; k < pairs.size(); k++) {
      int at = RatioReader.PROBES * k;
      Quantity read = reader.ohms(readings.subList(at, at + RatioReader.PROBES));
      if (read != null) {
        // The returned port's divider carries a little of the current past the reference.
        double share = (board.lowReferenceOhms() + board.pathOhms()) / board.dividerOhms();
        ohms[pairs.get(k)[0]][pairs.get(k)[1]] =
            Quantity.ohms(read.value() / (1 + share), read.u());
      }
    }
  }

  private void merge(int a, int b) {
    List<Integer> first = groupOf(a);
    List<Integer> second = groupOf(b);
    if (first != second) {
      first.addAll(second);
      groups.removeIf(g -> g == second);
    }
  }

  /**
   * Ports of one's group, and of every group that a bridge joins to it: at common they would take
   * part of the current past the reference.
   */
  private int floating(int port) {
    int mask = Ports.mask(groupOf(port));
    for (int before = 0; before != mask; ) {
      before = mask;
      for (int joined : Ports.list(before)) {
        for (int other : open.bridged(joined, TouchPhase.QUIET_OHMS)) {
          mask |= Ports.bit(other);
          mask |= groups.stream().filter(g -> g.contains(other)).mapToInt(Ports::mask).sum();
        }
      }
    }
    return mask;
  }

  private List<Integer> groupOf(int port) {
    return groups.stream().filter(g -> g.contains(port)).findFirst().orElseThrow();
  }

  /**
   * Resistance of two ports as seen at their terminals, clamps included; null where no current
   * passes between them.
   */
  @Nullable Quantity ohms(int a, int b) {
    return ohms[Math.min(a, b)][Math.max(a, b)];
  }

  /** Ports that may be joined: those between which a reading was tried. */
  List<List<Integer>> groups() {
    return groups;
  }
}
