package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.LinearSolverFactory_DDRM;
import org.ejml.interfaces.linsol.LinearSolverDense;
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
  private static final double LEAST_OHMS = 1e-5;
  private static final double SOFT_OHMS = 1e-3;
  private static final double STAR_SIEMENS = 1e-12;
  private static final double NODE_SIEMENS = 1e-13;

  private final Setting setting;
  private final List<Stage> stages;
  private final double[][] background;
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

  /** A resistor between two nodes, and how it changes with up to six parameters. */
  private static final class Resistor {
    final int x;
    final int y;
    double ohms;
    int terms;
    final int[] index = new int[8];
    final double[] slope = new double[8];

    Resistor(int x, int y) {
      this.x = x;
      this.y = y;
    }

    /**
     * A place beyond the end of the run would make a stretch of copper negative; it bends to zero
     * instead, smoothly, so that the fit finds back: s ln(1 + e^(r/s)).
     */
    void keepPositive() {
      double scaled = ohms / SOFT_OHMS;
      if (scaled < 30) {
        double share = 1 / (1 + Math.exp(-scaled));
        ohms = Math.max(SOFT_OHMS * Math.log1p(Math.exp(scaled)), LEAST_OHMS);
        for (int t = 0; t < terms; t++) {
          slope[t] *= share;
        }
      }
    }

    void add(int parameter, double value, double derivative) {
      ohms += value;
      if (parameter >= 0 && derivative != 0) {
        index[terms] = parameter;
        slope[terms++] = derivative;
      }
    }
  }

  /**
   * @param background conductances between terminals that are not of this group's making, siemens
   * @param conductors of the group
   * @param ratios readings to predict
   */
  GroupModel(
      Setting setting,
      List<Stage> stages,
      double[][] background,
      List<Integer> conductors,
      List<Ratio> ratios,
      Supposition supposed) {
    this.setting = setting;
    this.stages = stages;
    this.background = background;
    this.ratios = ratios;
    this.supposed = supposed;
    FaultPriors priors = FaultPriors.standard();
    common =
        setting.commonKnown()
            ? parameters.add(setting.common().value(), Math.max(setting.common().u(), 1e-6))
            : parameters.add(Setting.ANY_RUN_OHMS, Setting.ANY_RUN_OHMS);
    for (int port : conductors) {
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
      member.contact[s] = plug ? parameters.add(setting.contactOhms(), setting.contactU()) : -1;
      member.resistor[s] =
          plug && stages.get(s).kind() == Stage.Kind.CODED ? parameters.add(0, setting.armU()) : -1;
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
      DMatrixRMaj z = impedances(resistors, first.stage(), first.held());
      for (int k : snapshot) {
        read(z, ratios.get(k), resistors, values, k, jacobian);
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
    java.util.Arrays.sort(
        order, (i, j) -> Double.compare(place(member, i, point), place(member, j, point)));
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
        wire.add(member.resistor[stage], arm * (1 + deviation), arm);
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

  private DMatrixRMaj impedances(List<Resistor> resistors, int stage, BitSet held) {
    int n = star + 1;
    DMatrixRMaj q = new DMatrixRMaj(n, n);
    for (int port = 0; port < setting.ports(); port++) {
      double toCommon = held.get(port) ? 1 / setting.pathOhms() : 1 / setting.dividerOhms();
      q.add(port, port, toCommon);
      for (int other = port + 1; other < setting.ports(); other++) {
        if (background[port][other] > 0) {
          join(q, port, other, background[port][other]);
        }
      }
    }
    for (int node = setting.ports(); node < star; node++) {
      q.add(node, node, NODE_SIEMENS);
    }
    q.add(star, star, STAR_SIEMENS);
    double[] arms = stages.get(stage).arms();
    for (int port = 0; port < arms.length; port++) {
      if (!Double.isNaN(arms[port]) && !members.containsKey(port)) {
        join(q, port, star, 1 / Math.max(arms[port], LEAST_OHMS));
      }
    }
    for (Resistor resistor : resistors) {
      resistor.keepPositive();
      join(q, resistor.x, resistor.y, 1 / resistor.ohms);
    }
    LinearSolverDense<DMatrixRMaj> solver = LinearSolverFactory_DDRM.symmPosDef(n);
    DMatrixRMaj z = new DMatrixRMaj(n, n);
    if (!solver.setA(q)) {
      throw new IllegalStateException("not positive definite, nodes=" + n);
    }
    solver.invert(z);
    return z;
  }

  private static void join(DMatrixRMaj q, int x, int y, double siemens) {
    q.add(x, x, siemens);
    q.add(y, y, siemens);
    q.add(x, y, -siemens);
    q.add(y, x, -siemens);
  }

  /** Theory (11), for a voltage between any two terminals. */
  private void read(
      DMatrixRMaj z,
      Ratio seen,
      List<Resistor> resistors,
      double[] values,
      int k,
      double @Nullable [][] jacobian) {
    int a = seen.a();
    int b = seen.b();
    int p = seen.p();
    int q = seen.q();
    double path = setting.referenceOhms() + setting.pathOhms();
    double loopA = path + z.get(a, a);
    double loopB = path + z.get(b, b);
    double forward = z.get(a, b) / loopB;
    double back = z.get(a, b) / loopA;
    double ownVolts = z.get(p, a) - z.get(q, a);
    double otherVolts = z.get(p, b) - z.get(q, b);
    double current = forward + back;
    values[k] = (ownVolts * (1 + back) - otherVolts * (1 + forward)) / current;
    if (jacobian == null) {
      return;
    }
    for (Resistor r : resistors) {
      double g = 1 / r.ohms;
      double dA = g * (z.get(a, r.x) - z.get(a, r.y));
      double dB = g * (z.get(b, r.x) - z.get(b, r.y));
      double dPq = g * (z.get(p, r.x) - z.get(p, r.y) - z.get(q, r.x) + z.get(q, r.y));
      double dForward = (dA * dB - forward * dB * dB) / loopB;
      double dBack = (dA * dB - back * dA * dA) / loopA;
      double top =
          dPq * dA * (1 + back)
              + ownVolts * dBack
              - dPq * dB * (1 + forward)
              - otherVolts * dForward;
      double slope = (top - values[k] * (dForward + dBack)) / current;
      for (int t = 0; t < r.terms; t++) {
        jacobian[k][r.index[t]] += slope * r.slope[t];
      }
    }
  }
}
