package bellwire.analysis.landing;

import bellwire.analysis.findings.MistakeKind;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Cable.Conductor;
import bellwire.analysis.loop.Installation;
import java.util.ArrayList;
import java.util.List;

/** Copper of the cable that touches, is broken, or hardly conducts. */
public sealed interface CopperMistake extends Mistake {
  /** Bare copper on copper, ohm (CP). */
  double TOUCH_OHMS = 0.05;

  /** A splice gone bad: enough to starve a coil, too little to look broken, ohm (CP). */
  double POOR_JOINT_OHMS = 15;

  /**
   * Two conductors that touch.
   *
   * @param at 0 at the equipment, 1 at the control, else the fraction of the run
   * @param freeEnd whether it is a free end that touches
   */
  record Touching(String a, String b, double at, boolean freeEnd) implements CopperMistake {
    @Override
    public MistakeKind kind() {
      if (at > 0 && at < 1) {
        return MistakeKind.TOUCHING_ON_THE_WAY;
      }
      return freeEnd ? MistakeKind.TOUCHING_FREE_END : MistakeKind.TOUCHING_NEIGHBOUR;
    }

    @Override
    public Installation in(Installation installation) {
      return bridged(installation, new Bridge(a, b, TOUCH_OHMS, at));
    }

    @Override
    public String words() {
      return a + " and " + b + " touch " + place(at);
    }
  }

  /**
   * A conductor on bare metal.
   *
   * @param at 0 at the equipment, else the fraction of the run
   */
  record TouchingMetal(String conductor, double at) implements CopperMistake {
    @Override
    public MistakeKind kind() {
      return at > 0 ? MistakeKind.TOUCHING_METAL_ON_THE_WAY : MistakeKind.TOUCHING_METAL;
    }

    @Override
    public Installation in(Installation installation) {
      return bridged(installation, new Bridge(conductor, null, TOUCH_OHMS, at));
    }

    @Override
    public String words() {
      return conductor + " touches metal " + place(at);
    }
  }

  /** A conductor that does not reach the other end. */
  record Broken(String conductor) implements CopperMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.BROKEN;
    }

    @Override
    public Installation in(Installation installation) {
      return withOhms(installation, conductor, Double.POSITIVE_INFINITY);
    }

    @Override
    public String words() {
      return conductor + " broken on the way";
    }
  }

  /** A conductor with {@link #POOR_JOINT_OHMS} more than planned. */
  record PoorJoint(String conductor) implements CopperMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.POOR_JOINT;
    }

    @Override
    public Installation in(Installation installation) {
      double ohms = installation.cable().conductor(conductor).ohms();
      return withOhms(installation, conductor, ohms + POOR_JOINT_OHMS);
    }

    @Override
    public String words() {
      return "a poor joint in " + conductor;
    }
  }

  private static String place(double at) {
    if (at == 0) {
      return "at the equipment";
    }
    return at == 1 ? "at the control" : "on the way";
  }

  private static Installation bridged(Installation installation, Bridge bridge) {
    Cable cable = installation.cable();
    if (cable.bridges().contains(bridge)) {
      return installation;
    }
    List<Bridge> bridges = new ArrayList<>(cable.bridges());
    bridges.add(bridge);
    return installation.withCable(new Cable(cable.name(), cable.conductors(), bridges));
  }

  private static Installation withOhms(Installation installation, String conductor, double ohms) {
    Cable cable = installation.cable();
    List<Conductor> conductors = new ArrayList<>();
    for (Conductor c : cable.conductors()) {
      conductors.add(
          c.name().equals(conductor)
              ? new Conductor(c.name(), c.nearColour(), c.farColour(), ohms, c.uOhms())
              : c);
    }
    return installation.withCable(new Cable(cable.name(), conductors, cable.bridges()));
  }
}
