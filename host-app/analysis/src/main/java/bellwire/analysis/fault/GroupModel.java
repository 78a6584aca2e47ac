package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The circuit of a group of bridged conductors under a supposition, with all the other conductors
 * as they were measured: what every reading of every stage would be, and how that changes with each
 * parameter. Theory (30) and (31).
 *
 * <p>From its terminal a conductor is a chain: clamp, copper to its first bridge, copper between
 * bridges, copper, contact and the plug's resistor to the common point. Nodes: the terminals, one
 * for each end of a bridge, the common point.
 */
final class GroupModel {
  /** An arm of which nothing is known: somewhere among those of the plug. */
  private static final double ANY_ARM_OHMS = 350;

  private static final double U_ANY_ARM_OHMS = 200;

  private final Surroundings surroundings;
  private final Setting setting;
  private final List<Stage> stages;
  private final Supposition supposed;
  private final List<Ratio> ratios;
  private final Map<Integer, Member> members = new LinkedHashMap<>();
  private final Parameters parameters = new Parameters();
  private final int common;
  private final int[] along;
  private final int[] logOhms;
  private final List<List<Integer>> snapshots = new ArrayList<>();
  private final int clip;
  private final int metalNode;
  private final int star;

  /** A conductor of the group: the indices of its parameters, −1 for what it hasn't got. */
  private static final class Member {
    int port;
    int deviation;
    int clamp;
    int joint = -1;
    boolean jointAhead;
    int[] contact = {};
    int[] resistor = {};
    final List<Integer> bridges = new ArrayList<>();
    final List<Integer> nodes = new ArrayList<>();
  }

  /**
   * @param ratios readings to predict, among those that the surroundings were made for
   */
  GroupModel(Surroundings surroundings, List<Ratio> ratios, Supposition supposed) {
    this.surroundings = surroundings;
    setting = surroundings.setting();
    stages = surroundings.stages();
    this.ratios = ratios;
    this.supposed = supposed;
    FaultPriors priors = FaultPriors.standard();
    common =
        setting.commonKnown()
            ? parameters.add(setting.common().value(), Math.max(setting.common().u(), 1e-6))
            : parameters.add(Setting.ANY_RUN_OHMS, Setting.ANY_RUN_OHMS);
    for (int port : surroundings.conductors()) {
      members.put(port, member(port));
    }
    int node = setting.ports();
    boolean metal =
        supposed.bridges().stream()
            .anyMatch(p -> p.a() == setting.metal() || p.b() == setting.metal());
    clip = metal ? parameters.add(setting.contactOhms(), setting.contactU()) : -1;
    metalNode = metal ? node++ : -1;
    along = new int[supposed.bridges().size()];
    logOhms = new int[along.length];
    for (int b = 0; b < along.length; b++) {
      // Uniform from 0 to 1 has this mean and this standard deviation.
      along[b] = parameters.add(0.5, Math.sqrt(1.0 / 12));
      logOhms[b] = parameters.add(priors.logBridgeOhms(), priors.logBridgeSpread());
      Pair pair = supposed.bridges().get(b);
      for (int port : new int[] {pair.a(), pair.b()}) {
        Member member = members.get(port);
        if (member != null) {
          member.bridges.add(b);
          member.nodes.add(node++);
        }
      }
    }
    star = node;
    for (Member member : members.values()) {
      if (supposed.jointsAhead().contains(member.port)
          || supposed.jointsBeyond().contains(member.port)) {
        member.joint = parameters.add(priors.logJointOhms(), priors.logJointSpread());
        member.jointAhead = supposed.jointsAhead().contains(member.port);
      }
    }
    group();
  }

  private Member member(int port) {
    Member member = new Member();
    member.port = port;
    member.deviation = parameters.add(0, setting.spread());
    member.clamp = parameters.add(setting.contactOhms(), setting.contactU());
    member.contact = new int[stages.size()];
    member.resistor = new int[stages.size()];
    boolean through = !supposed.brokenBeyond().contains(port);
    for (int s = 0; s < stages.size(); s++) {
      boolean plug = stages.get(s).kind() != Stage.Kind.OPEN && through;
      boolean lent = supposed.lent().contains(port);
      boolean coded = stages.get(s).kind() == Stage.Kind.CODED;
      // What is lent runs beside the conductor's own arm and only lowers it.
      double u = lent ? setting.runOhms() : setting.contactU();
      member.contact[s] = plug ? parameters.add(setting.contactOhms(), u) : -1;
      member.resistor[s] =
          !plug || !coded
              ? -1
              : lent
                  ? parameters.add(ANY_ARM_OHMS, U_ANY_ARM_OHMS)
                  : parameters.add(0, setting.armU());
    }
    return member;
  }

  /** Readings of one stage with the same ports held share one circuit. */
  private void group() {
    Map<List<Object>, List<Integer>> groups = new HashMap<>();
    for (int k = 0; k < ratios.size(); k++) {
      Ratio ratio = ratios.get(k);
      List<Integer> group =
          groups.computeIfAbsent(
              List.of(ratio.stage(), ratio.held()),
              key -> {
                List<Integer> made = new ArrayList<>();
                snapshots.add(made);
                return made;
              });
      group.add(k);
    }
  }

  Parameters parameters() {
    return parameters;
  }

  /** Where a fit begins with what the conductors have in common. */
  void startRunAt(double ohms) {
    parameters.startAt(common, ohms);
  }

  /** Where a fit begins with the place of a bridge, fraction of the run. */
  void startAlong(int bridge, double fraction) {
    parameters.startAt(along[bridge], fraction);
  }

  int alongIndex(int bridge) {
    return along[bridge];
  }

  int logOhmsIndex(int bridge) {
    return logOhms[bridge];
  }

  int logJointIndex(int port) {
    Member member = members.get(port);
    return member == null ? -1 : member.joint;
  }

  /** The resistor on the coded plug, or what is lent there; −1 where there is none. */
  int armIndex(int port, int stage) {
    Member member = members.get(port);
    return member == null ? -1 : member.resistor[stage];
  }

  /**
   * @param values by reading, ohm
   * @param jacobian readings × parameters; null where not asked for
   */
  record Predicted(double[] values, double @Nullable [][] jacobian) {
    /** Change of reading k with parameter i. */
    double slope(int k, int i) {
      return jacobian == null ? Double.NaN : jacobian[k][i];
    }
  }

  Predicted at(double[] point, boolean withJacobian) {
    double[] values = new double[ratios.size()];
    double[][] jacobian = withJacobian ? new double[values.length][parameters.count()] : null;
    for (List<Integer> snapshot : snapshots) {
      Ratio first = ratios.get(snapshot.get(0));
      List<Resistor> resistors = resistors(point, first.stage());
      Impedances z = new Impedances(surroundings, first.stage(), resistors, star, first.held());
      for (int k : snapshot) {
        z.read(ratios.get(k), resistors, values, k, jacobian);
      }
    }
    return new Predicted(values, jacobian);
  }

  private List<Resistor> resistors(double[] point, int stage) {
    List<Resistor> resistors = new ArrayList<>();
    for (int b = 0; b < along.length; b++) {
      Pair pair = supposed.bridges().get(b);
      Resistor bridge = new Resistor(nodeOf(pair.a(), b), nodeOf(pair.b(), b));
      double ohms = Math.exp(Math.min(point[logOhms[b]], 40));
      bridge.add(logOhms[b], ohms, ohms);
      resistors.add(bridge);
    }
    for (Member member : members.values()) {
      chain(member, point, stage, resistors);
    }
    if (clip >= 0) {
      Resistor metal = new Resistor(setting.metal(), metalNode);
      metal.add(clip, point[clip], 1);
      resistors.add(metal);
    }
    return resistors;
  }

  private int nodeOf(int port, int bridge) {
    Member member = members.get(port);
    return member == null ? metalNode : member.nodes.get(member.bridges.indexOf(bridge));
  }

  private void chain(Member member, double[] point, int stage, List<Resistor> resistors) {
    Integer[] order = new Integer[member.bridges.size()];
    for (int i = 0; i < order.length; i++) {
      order[i] = i;
    }
    Arrays.sort(order, (i, j) -> Double.compare(place(member, i, point), place(member, j, point)));
    int node = member.port;
    int last = -1;
    for (int k = 0; k < order.length; k++) {
      int next = member.nodes.get(order[k]);
      boolean cut = k == 0 && supposed.brokenAhead().contains(member.port);
      if (!cut) {
        Resistor wire = new Resistor(node, next);
        copper(wire, member, point, last, order[k]);
        if (k == 0) {
          wire.add(member.clamp, point[member.clamp], 1);
          joint(wire, member, point, true);
        }
        resistors.add(wire);
      }
      node = next;
      last = order[k];
    }
    if (member.contact[stage] >= 0) {
      Resistor wire = new Resistor(node, star);
      copper(wire, member, point, last, -1);
      if (last < 0) {
        wire.add(member.clamp, point[member.clamp], 1);
        joint(wire, member, point, true);
      }
      wire.add(member.contact[stage], point[member.contact[stage]], 1);
      joint(wire, member, point, false);
      if (member.resistor[stage] >= 0) {
        Integer position = supposed.positions().get(member.port);
        double arm = position == null ? 0 : setting.armOhms()[position];
        double deviation = point[member.resistor[stage]];
        if (supposed.lent().contains(member.port)) {
          wire.add(member.resistor[stage], deviation, 1);
        } else {
          wire.add(member.resistor[stage], arm * (1 + deviation), arm);
        }
      }
      resistors.add(wire);
    }
  }

  private double place(Member member, int bridge, double[] point) {
    return point[along[member.bridges.get(bridge)]];
  }

  /** Copper from one bridge (−1: the near end) to the next (−1: the far end). */
  private void copper(Resistor wire, Member member, double[] point, int from, int to) {
    double start = from < 0 ? 0 : place(member, from, point);
    double end = to < 0 ? 1 : place(member, to, point);
    double perRun = point[common] * (1 + point[member.deviation]);
    wire.add(common, perRun * (end - start), (1 + point[member.deviation]) * (end - start));
    wire.add(member.deviation, 0, point[common] * (end - start));
    if (to >= 0) {
      slope(wire, member, to, perRun);
    }
    if (from >= 0) {
      slope(wire, member, from, -perRun);
    }
  }

  private void slope(Resistor wire, Member member, int bridge, double ohms) {
    wire.add(along[member.bridges.get(bridge)], 0, ohms);
  }

  private static void joint(Resistor wire, Member member, double[] point, boolean ahead) {
    if (member.joint >= 0 && member.jointAhead == ahead) {
      double ohms = Math.exp(Math.min(point[member.joint], 40));
      wire.add(member.joint, ohms, ohms);
    }
  }
}
