package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Installation;
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

  boolean cause(Scene scene, LoadResult load) {
    Control control = of.control();
    boolean leaky =
        control.supply().kind() == Control.Supply.Kind.STOLEN
            || control.contacts().stream().anyMatch(c -> Double.isFinite(c.leakOhms()));
    if (!leaky) {
      return false;
    }
    for (LoadResult l : without(control).state(scene.result.state()).loads()) {
      if (l.load().equals(load.load())) {
        return l.energised() == Energised.OFF && !l.held();
      }
    }
    return false;
  }

  /** The same with a control that lives on a battery and whose open contacts do not leak. */
  private Simulation without(Control control) {
    Simulation known = without;
    if (known == null) {
      Control.Supply battery =
          new Control.Supply(Control.Supply.Kind.BATTERY, null, null, List.of(), 0, 0);
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
              battery,
              tight,
              control.jumpers(),
              control.settings(),
              control.states());
      known =
          new Simulation(new Installation(of.equipment(), ideal, of.cable(), of.plan(), of.open()));
      without = known;
    }
    return known;
  }
}
