package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Cable.Conductor;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Control.Setting;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.Switch;
import bellwire.analysis.loop.Wire;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;

/** Every step that an installation allows, in the order of a check list: near things first. */
final class Steps {
  // Effort, a look under the control's cover being 1 (CP).
  private static final double ASK = 1;
  private static final double LOOK_AT_CONTROL = 1;
  private static final double LOOK_AT_EQUIPMENT = 1.5;
  private static final double PART = 2;
  private static final double METER = 3;
  private static final double CALL_MORE = 1;
  private static final double LEAD = 4;
  private static final double OHMS = 5;
  private static final double LIFT_ALL = 6;
  private static final double SURVEY = 10;

  private static final double TOUCH_ERROR = 0.04;
  private static final double LIFT_ERROR = 0.03;
  private static final double SURVEY_ERROR = 0.01;

  private static final String DEAD = "Power off, proved dead: ";
  private static final String LIVE =
      "Live, 24 V class: insulated probes, bridge no two terminals, keep clear of line voltage in"
          + " the same cabinet.";
  private static final String RUNS =
      " The equipment may start: keep clear of fan, burner and outdoor unit; a compressor rests 5"
          + " minutes between starts.";

  private final Installation intended;
  private final List<Step> steps = new ArrayList<>();

  private Steps(Installation intended) {
    this.intended = intended;
  }

  static List<Step> of(Installation intended, Set<Symptom> possible) {
    Steps all = new Steps(intended);
    List<State> states = intended.control().states();
    possible.forEach(s -> all.steps.add(new Asking(s, RUNS.strip(), ASK, Trials.of(s, states))));
    all.looks(Side.FAR, LOOK_AT_CONTROL);
    all.plan();
    all.looks(Side.NEAR, LOOK_AT_EQUIPMENT);
    all.parts();
    all.joined();
    for (int k = 0; k < states.size(); k++) {
      all.meters(states.get(k), 1L << k);
    }
    all.lift();
    all.survey();
    return List.copyOf(all.steps);
  }

  private void looks(Side side, double cost) {
    List<String> terminals =
        side == Side.NEAR ? intended.equipment().terminals() : intended.control().terminals();
    List<String> answers = new ArrayList<>(terminals);
    answers.add("under none");
    for (Landed landed : intended.plan().landed()) {
      String name = landed.conductor();
      steps.add(
          new Looking(
              DEAD + "tug " + name + ". Under which terminal is it " + Mistake.at(side) + "?",
              cost,
              answers,
              c -> {
                String terminal = LandingMistake.terminal(c.installation(), name, side);
                return terminal == null ? terminals.size() : terminals.indexOf(terminal);
              }));
    }
    double at = side == Side.NEAR ? 0 : 1;
    steps.add(
        new Describing(
            DEAD + "look at the bare copper " + Mistake.at(side) + ". What touches?",
            cost,
            TOUCH_ERROR,
            c -> touches(c.installation(), b -> b.at() == at)));
  }

  private static String touches(Installation installation, Predicate<Bridge> where) {
    List<String> words = new ArrayList<>();
    for (Bridge b : installation.cable().bridges()) {
      if (where.test(b)) {
        words.add(b.b() == null ? b.a() + " and metal" : b.a() + " and " + b.b());
      }
    }
    return words.isEmpty()
        ? "nothing touches"
        : String.join("; ", words.stream().sorted().toList());
  }

  private void plan() {
    for (Jumper jumper : intended.control().jumpers()) {
      String where = jumper.a() + " and " + jumper.b() + " " + Mistake.at(jumper.side());
      double cost = jumper.side() == Side.NEAR ? LOOK_AT_EQUIPMENT : LOOK_AT_CONTROL;
      look(
          "is there a jumper, or a slide set so, between " + where + "?",
          cost,
          "yes",
          "no",
          c -> c.installation().plan().jumpers().contains(jumper));
    }
    for (Setting setting : intended.control().settings()) {
      steps.add(
          new Looking(
              "What is the control's setting '" + setting.name() + "'?",
              LOOK_AT_CONTROL,
              setting.choices(),
              c ->
                  setting
                      .choices()
                      .indexOf(c.installation().plan().settings().get(setting.name()))));
    }
  }

  private void look(String words, double cost, String yes, String no, Predicate<Case> is) {
    steps.add(new Looking(DEAD + words, cost, List.of(yes, no), c -> is.test(c) ? 0 : 1));
  }

  private void parts() {
    for (Fuse f : intended.equipment().all(Fuse.class)) {
      look(
          "take the " + f.name() + " out. Has it opened?",
          PART,
          "opened",
          "sound",
          c -> Case.opened(c, f.name()));
    }
    for (Switch s : intended.equipment().all(Switch.class)) {
      look(
          "is the " + s.name() + " open (" + s.means() + ")? Ohms across it, a lead lifted.",
          PART,
          "open",
          "closed",
          c -> c.installation().open().contains(s.name()));
    }
    for (Wire w : intended.equipment().all(Wire.class)) {
      if (!w.a().equals(Point.METAL) && !w.b().equals(Point.METAL)) {
        look(
            "does the " + w.name() + " conduct from end to end, its leads lifted?",
            LEAD,
            "yes",
            "no",
            c -> c.installation().equipment().all(Wire.class).contains(w));
      }
    }
    for (Load l : intended.equipment().all(Load.class)) {
      if (l.kind() != Load.Kind.BOARD_INPUT) {
        steps.add(
            new Looking(
                DEAD + "lift a lead of the " + l.name() + ". Ohms across its coil and wires?",
                LEAD,
                List.of("a coil's", "below 2 ohm: shorted", "no path: open"),
                c ->
                    PartMistake.CoilOpen.is(c.installation(), l.name())
                        ? 2
                        : PartMistake.CoilShorted.is(c.installation(), l.name()) ? 1 : 0));
      }
    }
  }

  private void meters(State state, long live) {
    for (MeterPoints.Pair pair : MeterPoints.of(intended)) {
      boolean calls = state.call() != Call.NONE;
      steps.add(
          new Metering(
              "Control on '" + state.name() + "': volts between " + pair.words() + "?",
              calls ? LIVE + RUNS : LIVE,
              METER + (calls ? CALL_MORE : 0),
              state,
              live,
              pair.a(),
              pair.b()));
    }
  }

  private void joined() {
    steps.add(
        new Describing(
            DEAD
                + "lift the cable at the equipment, ends apart. Which conductors have less than"
                + " 10 ohm to one another or to metal?",
            OHMS,
            TOUCH_ERROR,
            c -> Joined.words(c.installation())));
  }

  private void lift() {
    State rest = intended.control().states().get(0);
    steps.add(
        new Describing(
            DEAD
                + "lift all conductors of the cable at the control, ends apart; power on. What happens?",
            LIVE + RUNS,
            LIFT_ALL,
            LIFT_ERROR,
            Trials.LIFTED,
            c -> happens(c.lifted().afterFuses(rest), c.lifted().state(rest))));
  }

  private static String happens(StateResult after, StateResult before) {
    List<String> words = new ArrayList<>();
    before.fuses().stream()
        .filter(f -> f.opens().certain())
        .forEach(f -> words.add("the " + f.name() + " opens"));
    after.loads().stream()
        .filter(l -> l.energised() != Energised.OFF)
        .filter(l -> l.load().role() != Load.Role.NONE)
        .forEach(l -> words.add(l.load().name() + " pulls in"));
    return words.isEmpty() ? "nothing" : String.join(", ", words);
  }

  private void survey() {
    steps.add(
        new Describing(
            DEAD + "lift the cable at both ends and survey it with Bellwire. What does it find?",
            SURVEY,
            SURVEY_ERROR,
            c -> surveyed(c.installation())));
  }

  private String surveyed(Installation installation) {
    List<String> words = new ArrayList<>();
    for (Conductor conductor : installation.cable().conductors()) {
      Conductor planned = intended.cable().conductor(conductor.name());
      if (conductor.broken() && !planned.broken()) {
        words.add(conductor.name() + " has no path to the far end");
      } else if (conductor.ohms() > planned.ohms() + CopperMistake.POOR_JOINT_OHMS / 2) {
        words.add(conductor.name() + " stands out");
      }
    }
    String touching = touches(installation, b -> b.at() > 0 && b.at() < 1);
    if (words.isEmpty()) {
      return touching.equals("nothing touches") ? "all sound" : touching;
    }
    return String.join("; ", words) + (touching.equals("nothing touches") ? "" : "; " + touching);
  }
}
