package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Where the fit of a supposition may begin. What two ports have between them is divided among the
 * copper, the bridge and a joint ahead of it in several ways; what no reading shows by itself has
 * several sizes. Common practice, no source.
 */
final class Beginnings {
  private static final double[] UNREAD_BRIDGE_OHMS = {1, 8, 60};
  private static final double[] JOINT_OHMS = {1, 6, 35};

  /** Share of what is read between two ports that a joint ahead of their bridge may be. */
  private static final double JOINT_SHARE = 0.9;

  private static final double MISFIT_OHMS = 0.3;
  private static final double MISFIT_SHARE = 0.002;

  /** What an arm that may be lent is sought in, and in how many of Newton's steps. */
  private static final double LEAST_ARM_OHMS = 1;

  private static final double MOST_ARM_OHMS = 1e4;
  private static final int ARM_STEPS = 3;

  /** Of one reading, so that one alone rules nothing out. */
  private static final double WORST = 1e4;

  private final Evidence evidence;
  private final Supposition supposed;
  private final List<Ratio> ratios;

  /**
   * @param bridgeOhms of a bridge that no reading shows
   * @param jointOhms of joints; NaN for a share of what is read
   */
  record Beginning(double bridgeOhms, double jointOhms) {}

  /**
   * @param ratios all readings of the group
   */
  Beginnings(Evidence evidence, Supposition supposed, List<Ratio> ratios) {
    this.evidence = evidence;
    this.supposed = supposed;
    this.ratios = ratios;
  }

  private List<Beginning> all() {
    boolean ahead = !supposed.jointsAhead().isEmpty();
    boolean joint = ahead || !supposed.jointsBeyond().isEmpty();
    List<Beginning> all = new ArrayList<>();
    for (double bridge : allRead() ? new double[] {1} : UNREAD_BRIDGE_OHMS) {
      if (ahead) {
        all.add(new Beginning(bridge, Double.NaN));
      }
      for (double ohms : joint ? JOINT_OHMS : new double[] {1}) {
        all.add(new Beginning(bridge, ohms));
      }
    }
    return all;
  }

  private boolean allRead() {
    return supposed.bridges().stream()
        .allMatch(pair -> ratios.stream().anyMatch(r -> direct(r, pair)));
  }

  private boolean direct(Ratio ratio, Pair pair) {
    return ratio.p() == pair.a()
        && ratio.q() == pair.b()
        && evidence.stages().get(ratio.stage()).kind() == Stage.Kind.OPEN;
  }

  /** Puts the model where it comes nearest to the readings that it was made for. */
  void nearest(GroupModel model, List<Ratio> readings) {
    all().stream()
        .min(Comparator.comparingDouble(b -> misfit(model, readings, b)))
        .ifPresent(b -> begin(model, readings, b));
  }

  /** The least sum of squares over all beginnings, each reading allowed a run of copper. */
  double leastMisfit(GroupModel model, List<Ratio> readings) {
    return all().stream()
        .mapToDouble(b -> misfit(model, readings, b))
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  private double misfit(GroupModel model, List<Ratio> readings, Beginning beginning) {
    begin(model, readings, beginning);
    double[] values = model.at(model.parameters().start(), false).values();
    double misfit = 0;
    for (int k = 0; k < values.length; k++) {
      double wide = MISFIT_OHMS + evidence.setting().runOhms() + MISFIT_SHARE * values[k];
      misfit += Math.min(WORST, Math.pow((values[k] - readings.get(k).ohms()) / wide, 2));
    }
    return misfit;
  }

  private void begin(GroupModel model, List<Ratio> readings, Beginning beginning) {
    double run = evidence.setting().runOhms();
    double joint = Double.isNaN(beginning.jointOhms()) ? JOINT_OHMS[0] : beginning.jointOhms();
    for (int b = 0; b < supposed.bridges().size(); b++) {
      Pair pair = supposed.bridges().get(b);
      boolean ahead =
          supposed.jointsAhead().contains(pair.a()) || supposed.jointsAhead().contains(pair.b());
      double ohms = beginning.bridgeOhms();
      for (Ratio ratio : ratios) {
        if (direct(ratio, pair)) {
          double left = ratio.ohms() - run;
          if (ahead && Double.isNaN(beginning.jointOhms())) {
            joint = Math.max(JOINT_SHARE * left, 1e-2);
          }
          ohms = Math.max(ahead ? left - joint : left, Math.max(0.02 * ratio.ohms(), 1e-3));
        }
      }
      model.parameters().startAt(model.logOhmsIndex(b), Math.log(ohms));
    }
    for (int port = 0; port < evidence.setting().ports(); port++) {
      int index = model.logJointIndex(port);
      if (index >= 0) {
        model.parameters().startAt(index, Math.log(joint));
      }
    }
    supposed.lent().forEach(port -> beginArm(model, readings, port));
  }

  /**
   * Puts an arm that may be lent where the conductor's own reading on the coded plug has it. The
   * conductances of parallel paths add, so that Newton's steps are taken in them.
   */
  private void beginArm(GroupModel model, List<Ratio> readings, int port) {
    for (int k = 0; k < readings.size(); k++) {
      Ratio ratio = readings.get(k);
      int arm = model.armIndex(port, ratio.stage());
      if (arm < 0 || ratio.a() != port || ratio.p() != port) {
        continue;
      }
      for (int step = 0; step < ARM_STEPS; step++) {
        double[] start = model.parameters().start();
        GroupModel.Predicted predicted = model.at(start, true);
        double read = predicted.values()[k];
        double share = Math.pow(start[arm] / read, 2) * predicted.slope(k, arm);
        double siemens = 1 / start[arm] + (1 / ratio.ohms() - 1 / read) / share;
        double ohms = 1 / Math.max(1 / MOST_ARM_OHMS, Math.min(1 / LEAST_ARM_OHMS, siemens));
        model.parameters().startAt(arm, ohms);
      }
      return;
    }
  }
}
