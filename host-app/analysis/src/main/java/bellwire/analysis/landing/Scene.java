package bellwire.analysis.landing;

import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.Transformer;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** One state of an installation, as its judges look at it. */
final class Scene {
  final Installation of;
  final Simulation simulation;
  final StateResult result;
  private @Nullable Copper copper;

  Scene(Installation of, Simulation simulation, StateResult result) {
    this.of = of;
    this.simulation = simulation;
    this.result = result;
  }

  Copper copper() {
    Copper known = copper;
    if (known == null) {
      known = Copper.of(of, result);
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

  /** Whether it may run here, or does nothing of its own. */
  boolean mayRun(Load load) {
    Equipment.Wanted wanted = wanted();
    return load.role() == Load.Role.NONE
        || wanted.must().contains(load.name())
        || wanted.may().contains(load.name());
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

  /** Whether any load of these roles is pulled in. */
  boolean runs(Set<Load.Role> roles) {
    return result.loads().stream()
        .anyMatch(
            l -> l.energised() == StateResult.Energised.ON && roles.contains(l.load().role()));
  }
}
