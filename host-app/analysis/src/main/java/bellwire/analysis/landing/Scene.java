package bellwire.analysis.landing;

import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.Transformer;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** One state of an installation, as its judges look at it. */
final class Scene {
  final Installation of;
  final Simulation simulation;
  final StateResult result;
  final Cures cures;
  private @Nullable Copper copper;

  Scene(Installation of, Simulation simulation, Cures cures, StateResult result) {
    this.of = of;
    this.simulation = simulation;
    this.cures = cures;
    this.result = result;
  }

  Copper copper() {
    Copper known = copper;
    if (known == null) {
      known = new Copper(simulation.joints(result.state(), Copper.TOUCH_OHMS));
      copper = known;
    }
    return known;
  }

  String state() {
    return result.state().name();
  }

  Equipment.Wanted wanted() {
    return of.equipment().wantedOn(result.state().call());
  }

  boolean must(Load load) {
    return wanted().must().contains(load.name());
  }

  boolean mayRun(Load load) {
    return mayRun(wanted(), load);
  }

  /** Whether it may run, or does nothing of its own. */
  private static boolean mayRun(Equipment.Wanted wanted, Load load) {
    return load.role() == Load.Role.NONE
        || wanted.must().contains(load.name())
        || wanted.may().contains(load.name());
  }

  /** Whether it may be as it is. */
  static boolean mayRun(Equipment.Wanted wanted, StateResult.LoadResult l) {
    return l.energised() == StateResult.Energised.OFF || mayRun(wanted, l.load());
  }

  List<Transformer> transformers() {
    return of.equipment().all(Transformer.class);
  }

  StateResult.TransformerResult of(Transformer transformer) {
    for (StateResult.TransformerResult t : result.transformers()) {
      if (t.transformer().equals(transformer)) {
        return t;
      }
    }
    throw new IllegalArgumentException("transformer=" + transformer.name());
  }
}
