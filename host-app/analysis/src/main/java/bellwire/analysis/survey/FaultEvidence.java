package bellwire.analysis.survey;

import bellwire.analysis.fault.Evidence;
import bellwire.analysis.fault.Evidence.Group;
import bellwire.analysis.fault.Evidence.Leakage;
import bellwire.analysis.fault.Ratio;
import bellwire.analysis.fault.Setting;
import bellwire.analysis.fault.Stage;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.survey.StarPhase.Observation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Puts what the phases read into the terms of the fault inference. */
final class FaultEvidence {
  /** Beside the reading's own uncertainty: what the model leaves out, relative and in ohm. */
  private static final double MODEL_SHARE = 3e-5;

  private static final double MODEL_OHMS = 50e-6;

  /** A path this poor is no path; below it a joint, however bad. */
  private static final double PATH_OHMS = 1e6;

  /** Standard deviation between two paths: relays within 0.4 ohm, switches within 0.5. */
  private static final double PATH_DIFFERENCE_OHMS = 0.52;

  private static final double COARSE_SHARE = 0.05;

  /** A leakage below this moves the readings of a plug's arms by more than their uncertainty. */
  private static final double GROUP_OHMS = 20_000;

  private static final int LARGEST_GROUP = 4;

  /**
   * How well the conductance of two clusters is that of one path from one port to another, the low
   * range's own drop and a third cluster's share set aside.
   */
  private static final double LEAK_SHARE = 0.002;

  private static final double CROSSED_SHARE = 0.03;
  private static final double LEAK_OHMS = 5;
  private static final double UNREAD_ARM_OHMS = 10;

  private final BoardModel board;
  private final Criteria criteria;
  private final Plug plug;
  private final OpenResult open;
  private final @Nullable StarResult coded;
  private final @Nullable StarResult tie;
  private final List<Stage> stages = new ArrayList<>();
  private final List<Ratio> ratios = new ArrayList<>();

  /**
   * @param tie the first seating: the clamps are those of the other phases
   */
  FaultEvidence(
      BoardModel board,
      Criteria criteria,
      Plug plug,
      OpenResult open,
      @Nullable StarResult coded,
      @Nullable StarResult tie) {
    this.board = board;
    this.criteria = criteria;
    this.plug = plug;
    this.open = open;
    this.coded = coded;
    this.tie = tie;
  }

  Evidence evidence(
      Map<Integer, Quantity> resistances,
      JointTest test,
      Map<Integer, Place> places,
      Map<Integer, Quantity> breaks) {
    openStage();
    List<Leakage> apart = new ArrayList<>();
    List<Group> groups = groups(apart);
    groups.forEach(this::leakageRatios);
    star(coded, Stage.Kind.CODED, test);
    star(tie, Stage.Kind.TIE, test);
    Map<Integer, Integer> positions = new LinkedHashMap<>();
    places.forEach(
        (port, place) -> {
          if (place.odds() >= criteria.identityOdds()) {
            positions.put(port, place.position() - 1);
          }
        });
    List<Integer> broken = new ArrayList<>();
    Map<Integer, Quantity> poor = new LinkedHashMap<>();
    for (int port : unreached()) {
      double ohms = pathOhms(port);
      if (ohms < PATH_OHMS) {
        poor.put(port, Quantity.ohms(ohms, COARSE_SHARE * ohms));
      } else {
        broken.add(port);
      }
    }
    return new Evidence(
        setting(test),
        List.copyOf(stages),
        List.copyOf(ratios),
        background(),
        groups,
        apart,
        resistances,
        test.standingOut(),
        broken,
        breaks,
        poor,
        positions,
        doubtful(test, positions));
  }

  private Setting setting(JointTest test) {
    double armU = Math.hypot(plug.tolerance() / Math.sqrt(3), plug.temperatureHalfWidth() / 3);
    return new Setting(
        Ports.COUNT,
        open.metalClipped() ? Ports.METAL : -1,
        board.pathOhms(),
        board.lowReferenceOhms(),
        board.dividerOhms(),
        test.median(),
        criteria.spread(),
        criteria.contactOhms(),
        criteria.contactHalfWidthOhms() / Math.sqrt(3),
        plug.armOhms(),
        armU);
  }

  private void openStage() {
    stages.add(new Stage(Stage.Kind.OPEN, new double[0]));
    // Undone what the open phase takes off for the returned port's divider: the model has it.
    double share = (board.lowReferenceOhms() + board.pathOhms()) / board.dividerOhms();
    for (List<Integer> cluster : open.clusters()) {
      BitSet held = bits(TouchPhase.quiet(cluster, open.clusters(), open.restOhms()));
      for (int a : cluster) {
        for (int b : cluster) {
          Quantity read = open.distances()[a][b];
          if (a < b && read != null) {
            add(0, a, b, a, b, held, read.value() * (1 + share), read.u());
          }
        }
      }
    }
  }

  private void star(@Nullable StarResult star, Stage.Kind kind, JointTest test) {
    if (star == null || star.observations().isEmpty()) {
      return;
    }
    double[] arms = new double[Ports.COUNT];
    Arrays.fill(arms, Double.NaN);
    // An arm that was not read by itself carries no current in the readings used here.
    star.connected().forEach(port -> arms[port] = UNREAD_ARM_OHMS);
    star.arms().forEach((port, arm) -> arms[port] = arm.value());
    stages.add(new Stage(kind, arms));
    BitSet held = bits(star.guard());
    for (Observation o : star.observations()) {
      double u = Math.hypot(Math.hypot(o.ohms().u(), leakPlaceOhms(o, test)), loadOhms(o, star));
      add(stages.size() - 1, o.a(), o.b(), o.a(), o.k(), held, o.ohms().value(), u);
    }
  }

  /**
   * The dividers of the other conductors draw on the common point through the arm that is read, by
   * as much as that point stands above common: which way the current goes, that is one path of
   * relay and switch or the other, and the two are not quite the same.
   */
  private double loadOhms(Observation o, StarResult star) {
    Quantity arm = star.arms().get(o.a());
    double most = plug.armOhms()[plug.positions() - 1];
    double ohms = arm == null ? most : Math.min(Math.abs(arm.value()), most);
    double loads = (star.connected().size() - 1) / board.dividerOhms();
    return ohms * loads * PATH_DIFFERENCE_OHMS / 2;
  }

  /**
   * What a leakage between the three ports moves a reading by, according to where along the run it
   * is: outside its group it counts as at the near end.
   */
  private double leakPlaceOhms(Observation o, JointTest test) {
    double siemens =
        open.leakSiemens(o.a(), o.b())
            + open.leakSiemens(o.k(), o.a())
            + open.leakSiemens(o.k(), o.b());
    double run = Double.isNaN(test.median().value()) ? 1 : test.median().value();
    return run * plug.armOhms()[plug.positions() - 1] * siemens;
  }

  private void add(int stage, int a, int b, int p, int q, BitSet held, double ohms, double u) {
    double wide = Math.hypot(u, Math.hypot(MODEL_OHMS, MODEL_SHARE * ohms));
    ratios.add(new Ratio(stage, a, b, p, q, held, ohms, wide));
  }

  private static BitSet bits(int mask) {
    return BitSet.valueOf(new long[] {mask & 0xffffffffL});
  }

  private double[][] background() {
    double[][] siemens = new double[Ports.COUNT][Ports.COUNT];
    for (int a = 0; a < Ports.COUNT; a++) {
      for (int b = 0; b < Ports.COUNT; b++) {
        siemens[a][b] = a == b ? 0 : open.network().between(a, b);
      }
    }
    return siemens;
  }

  private List<Leakage> leakages() {
    List<Leakage> leakages = new ArrayList<>();
    List<List<Integer>> clusters = open.clusters();
    for (int a = 0; a < clusters.size(); a++) {
      for (int b = a + 1; b < clusters.size(); b++) {
        Leak leak = open.leaks()[a][b];
        double ohms = 1 / leak.siemens();
        if (leak.detected() && ohms < criteria.dampOhms()) {
          leakages.add(
              new Leakage(
                  clusters.get(a), clusters.get(b), Quantity.ohms(ohms, leak.u() * ohms * ohms)));
        }
      }
    }
    return leakages;
  }

  /**
   * Clusters, and what leaks to them by so little that it moves the readings of a plug's arms; a
   * bundle that leaks everywhere is left in its clusters.
   *
   * @param apart takes the other leakages
   */
  private List<Group> groups(List<Leakage> apart) {
    List<Leakage> strong = new ArrayList<>();
    for (Leakage leak : leakages()) {
      (leak.ohms().value() < GROUP_OHMS ? strong : apart).add(leak);
    }
    List<List<List<Integer>>> parts = new ArrayList<>();
    open.clusters().forEach(c -> parts.add(new ArrayList<>(List.of(c))));
    List<Leakage> joining = new ArrayList<>();
    for (Leakage leak : strong) {
      List<List<Integer>> a = partOf(parts, leak.ports());
      List<List<Integer>> b = partOf(parts, leak.others());
      boolean small = a != b && size(a) + size(b) <= LARGEST_GROUP;
      if (small) {
        a.addAll(b);
        parts.remove(b);
      }
      (small || a == b ? joining : apart).add(leak);
    }
    return parts.stream()
        .filter(part -> size(part) > 1)
        .map(
            part ->
                new Group(
                    List.copyOf(part),
                    joining.stream().filter(l -> part.contains(l.ports())).toList()))
        .toList();
  }

  private static List<List<Integer>> partOf(
      List<List<List<Integer>>> parts, List<Integer> cluster) {
    return parts.stream().filter(p -> p.contains(cluster)).findFirst().orElseThrow();
  }

  private static int size(List<List<Integer>> part) {
    return part.stream().mapToInt(List::size).sum();
  }

  /** A leakage as a reading from one port to another, the copper on the way part of it. */
  private void leakageRatios(Group group) {
    for (Leakage leak : group.leaks()) {
      int a = leak.ports().get(0);
      int b = leak.others().get(0);
      BitSet held = bits(Ports.ALL & ~Ports.mask(leak.ports()) & ~Ports.mask(leak.others()));
      double ohms = leak.ohms().value();
      double share = group.leaks().size() > 1 ? CROSSED_SHARE : LEAK_SHARE;
      add(0, a, b, a, b, held, ohms, Math.hypot(leak.ohms().u() + LEAK_OHMS, share * ohms));
    }
  }

  /** Conductors that hung on none of the plugs that were on. */
  private List<Integer> unreached() {
    if (coded == null && tie == null) {
      return List.of();
    }
    return open.conductors().stream()
        .filter(p -> coded == null || !coded.connected().contains(p))
        .filter(p -> tie == null || !tie.connected().contains(p))
        .toList();
  }

  /** By how little a conductor hangs on the plug, less what it leaks to others without one. */
  private double pathOhms(int port) {
    double siemens = 0;
    StarResult last = tie != null ? tie : coded;
    if (last != null) {
      siemens = 1 / last.coarseOhms()[port];
    }
    return 1 / Math.max(siemens - 1 / open.apartOhms(port), 1e-12);
  }

  /** On the coded plug with an arm that no position explains, or lower than its fellows. */
  private Set<Integer> doubtful(JointTest test, Map<Integer, Integer> positions) {
    Set<Integer> doubtful = new HashSet<>();
    for (int port : open.conductors()) {
      boolean single = open.touching(port).isEmpty();
      boolean reaches = coded != null && coded.connected().contains(port);
      if (single && reaches && (!positions.containsKey(port) || test.low(port))) {
        doubtful.add(port);
      }
    }
    return doubtful;
  }
}
