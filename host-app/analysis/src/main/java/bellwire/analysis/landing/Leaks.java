package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Whether it is the control's own current through an open call that keeps a load pulled in. */
final class Leaks {
  private final Installation of;
  private @Nullable Simulation without;

  Leaks(Installation of) {
    this.of = of;
  }

  boolean cause(Scene scene, Load load) {
    if (!possible(of.control())) {
      return false;
    }
    Simulation known = without;
    if (known == null) {
      known = new Simulation(without(of));
      without = known;
    }
    for (LoadResult l : known.state(scene.result.state()).loads()) {
      if (l.load().equals(load)) {
        return l.energised() == Energised.OFF && !l.held();
      }
    }
    return false;
  }

  /** Whether a control lets a current through calls that it has not made. */
  static boolean possible(Control control) {
    return control.supply().kind() == Control.Supply.Kind.STOLEN
        || control.contacts().stream().anyMatch(c -> Double.isFinite(c.leakOhms()));
  }

  /** The same with a control that lives on a battery and whose open contacts do not leak. */
  static Installation without(Installation of) {
    Control control = of.control();
    List<ControlContact> tight =
        control.contacts().stream()
            .map(
                c ->
                    new ControlContact(
                        c.supply(), c.terminal(), c.ohms(), Double.POSITIVE_INFINITY))
            .toList();
    Control ideal =
        new Control(
            control.title(),
            control.terminals(),
            new Control.Supply(Control.Supply.Kind.BATTERY, null, null, List.of(), 0, 0),
            tight,
            control.jumpers(),
            control.settings(),
            control.states());
    return new Installation(of.equipment(), ideal, of.cable(), of.plan(), of.open());
  }
}
