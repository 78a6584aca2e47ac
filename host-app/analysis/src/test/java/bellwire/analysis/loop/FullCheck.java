package bellwire.analysis.loop;

import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.landing.Mistake;
import bellwire.analysis.landing.Mistakes;
import bellwire.analysis.loop.Cable.Conductor;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Every state of the two-stage heat pump over a two-stage furnace, as it is meant to be and with
 * every single mistake made.
 */
final class FullCheck {
  /** A circuit of the many that the states come to on their way to rest. */
  record Solving(Installation installation, Condition condition) {}

  private final Installation intended;
  private final List<Mistake> mistakes;

  /**
   * @param conductors of the cable, 8 or more: eight are landed, the others spare
   */
  FullCheck(int conductors) {
    intended = withSpares(SampleLoops.DUAL_FUEL_TWO_STAGE.healthy(), conductors);
    mistakes = Mistakes.single(intended);
  }

  private static Installation withSpares(Installation sample, int conductors) {
    List<Conductor> all = new ArrayList<>(sample.cable().conductors());
    List<Landed> landed = new ArrayList<>(sample.plan().landed());
    while (all.size() < conductors) {
      String name = "spare " + all.size();
      all.add(new Conductor(name, null, null, SampleLoops.CONDUCTOR_OHMS, 0));
      landed.add(new Landed(name, null, null));
    }
    return sample
        .withCable(new Cable("18-" + all.size(), all, List.of()))
        .withPlan(new LandingPlan(landed, sample.plan().jumpers(), sample.plan().settings()));
  }

  int states() {
    return intended.control().states().size();
  }

  int mistakes() {
    return mistakes.size();
  }

  /** As it is meant to be, then with each mistake. */
  List<Installation> installations() {
    List<Installation> all = new ArrayList<>(List.of(intended));
    mistakes.forEach(m -> all.add(m.in(intended)));
    return all;
  }

  /** How many findings there are. */
  int check() {
    return installations().stream().mapToInt(i -> LandingCheck.check(i).size()).sum();
  }

  /**
   * Of some of its installations, from the first. What the check solves besides, with fuses opened
   * and with float switches open, is not among them.
   */
  List<Solving> solvings(int most) {
    List<Solving> all = new ArrayList<>();
    for (Installation installation : installations().stream().limit(most).toList()) {
      for (Condition condition : conditions(installation)) {
        all.add(new Solving(installation, condition));
      }
    }
    return all;
  }

  /** On the way of every state to rest, from all loads dropped out and from all pulled in. */
  private static Set<Condition> conditions(Installation installation) {
    LoopCircuit circuit = new LoopCircuit(installation);
    FixPoint fixPoint = new FixPoint(circuit, installation);
    List<Control.ControlContact> contacts = installation.control().contacts();
    for (Control.State state : installation.control().states()) {
      long closes = 0;
      for (Control.Closing closing : state.closes()) {
        if (closing.under(installation.plan().settings())) {
          closes |= LoopCircuit.closing(contacts, closing.terminal());
        }
      }
      fixPoint.fromRest(closes);
      fixPoint.fromAllPulledIn(closes);
    }
    return circuit.conditions();
  }
}
