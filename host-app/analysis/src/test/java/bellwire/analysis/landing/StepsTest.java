package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.PoorJoint;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.LandingMistake.Mislanded;
import bellwire.analysis.landing.LandingMistake.NotLanded;
import bellwire.analysis.landing.PartMistake.CoilOpen;
import bellwire.analysis.landing.PartMistake.CoilShorted;
import bellwire.analysis.landing.PartMistake.FuseOpened;
import bellwire.analysis.landing.PartMistake.JumperChanged;
import bellwire.analysis.landing.PartMistake.SwitchOpened;
import bellwire.analysis.landing.PartMistake.WireOpen;
import bellwire.analysis.landing.PartMistake.WrongSetting;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.Switch;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What a technician would find at each step with one thing wrong, and what the step costs. */
class StepsTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();

  private static Step step(List<Step> steps, String... fragments) {
    return steps.stream()
        .filter(s -> List.of(fragments).stream().allMatch(words(s)::contains))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no step=" + List.of(fragments)));
  }

  private static Measurement measurement(Step step) {
    return step.measurement(step.answers(Set.of()));
  }

  private static String words(Step step) {
    return measurement(step).words();
  }

  /** The most probable answer. */
  private static String found(Installation intended, Installation made, String... fragments) {
    Step step = step(Steps.of(intended, Set.of()), fragments);
    int code = step.code(new Case(made, new Simulation(made), Symptoms.NONE));
    Step.Answers answers = step.answers(Set.of(code));
    int best = 0;
    for (int answer = 1; answer < answers.words().size(); answer++) {
      best = answers.probability(answer, code) > answers.probability(best, code) ? answer : best;
    }
    return answers.words().get(best);
  }

  private static String found(Mistake mistake, String... fragments) {
    return found(FURNACE, mistake.in(FURNACE), fragments);
  }

  @Test
  void whereAConductorIsUnder() {
    String[] control = {"tug white", "at the control"};
    String[] equipment = {"tug white", "at the equipment"};
    assertThat(found(FURNACE, FURNACE, control)).isEqualTo("W");
    assertThat(found(new NotLanded(Side.FAR, "white", "W"), control)).isEqualTo("under none");
    assertThat(found(new NotLanded(Side.FAR, "white", "W"), equipment)).isEqualTo("W");
    Mistake mislanded = new Mislanded(Side.NEAR, "white", "W", "C", true);
    assertThat(found(mislanded, equipment)).isEqualTo("C");
    assertThat(found(mislanded, control)).isEqualTo("W");
  }

  @Test
  void whatTouchesIsSeenWhereItTouches() {
    String[] control = {"bare copper at the control"};
    String[] equipment = {"bare copper at the equipment"};
    Mistake far = new Touching("red", "blue", 1, false);
    assertThat(found(far, control)).isEqualTo("red and blue");
    assertThat(found(far, equipment)).isEqualTo("nothing touches");
    assertThat(found(far, "survey it with Bellwire")).isEqualTo("all sound");
    assertThat(found(far, "lift the cable at the equipment, ends apart")).isEqualTo("blue and red");
    Mistake metal = new TouchingMetal("red", 0);
    assertThat(found(metal, equipment)).isEqualTo("red and metal");
    assertThat(found(metal, control)).isEqualTo("nothing touches");
    Installation both = new Touching("blue", "green", 0, false).in(metal.in(FURNACE));
    assertThat(found(FURNACE, both, equipment)).isEqualTo("blue and green; red and metal");
    assertThat(found(new Touching("red", "blue", 0.5, false), equipment))
        .isEqualTo("nothing touches");
  }

  @Test
  void howJumpersAndSettingsAre() {
    Mistake jumper = new JumperChanged(new Jumper(Side.FAR, "RC", "RH"), true);
    assertThat(found(TWO, TWO, "between RC and RH at the control")).isEqualTo("no");
    assertThat(found(TWO, jumper.in(TWO), "between RC and RH at the control")).isEqualTo("yes");
    assertThat(found(FURNACE, FURNACE, "setting 'fan in heat'")).isEqualTo("equipment");
    assertThat(found(new WrongSetting("fan in heat", "control", "equipment"), "setting 'fan"))
        .isEqualTo("control");
  }

  @Test
  void whatAMeterSaysOfParts() {
    assertThat(found(FURNACE, FURNACE, "take the board fuse out")).isEqualTo("sound");
    assertThat(found(new FuseOpened("board fuse"), "take the board fuse out")).isEqualTo("opened");
    Switch limit =
        FURNACE.equipment().all(Switch.class).stream()
            .filter(s -> s.kind() == Switch.Kind.LIMIT)
            .findFirst()
            .orElseThrow();
    assertThat(found(FURNACE, FURNACE, "limit switch")).isEqualTo("closed");
    assertThat(found(new SwitchOpened(limit), "limit switch")).isEqualTo("open");
    assertThat(found(new SwitchOpened(limit), "float switch")).isEqualTo("closed");
    assertThat(found(FURNACE, FURNACE, "outdoor cable's Y")).isEqualTo("yes");
    assertThat(found(new WireOpen("outdoor cable's Y"), "outdoor cable's Y")).isEqualTo("no");
    assertThat(found(new WireOpen("outdoor cable's Y"), "outdoor cable's C")).isEqualTo("yes");
    String coil = "lead of the gas valve";
    assertThat(found(FURNACE, FURNACE, coil)).isEqualTo("a coil's");
    assertThat(found(new CoilShorted("gas valve"), coil)).isEqualTo("below 2 ohm: shorted");
    assertThat(found(new CoilOpen("gas valve"), coil)).isEqualTo("no path: open");
    assertThat(found(new CoilOpen("compressor contactor"), coil)).isEqualTo("a coil's");
  }

  /** A bond to the cabinet has no two leads to lift, and a board's input no coil. */
  @Test
  void bondsAndBoardInputsAreNotMeasured() {
    List<String> words = Steps.of(FURNACE, Set.of()).stream().map(StepsTest::words).toList();
    assertThat(words)
        .noneMatch(w -> w.contains("bond of the common"))
        .noneMatch(w -> w.contains("lead of the heat input"))
        .noneMatch(w -> w.contains("lead of the fan input"))
        .anyMatch(w -> w.contains("lead of the compressor contactor"));
  }

  @Test
  void whatHappensWithTheCableLiftedAtTheControl() {
    String[] lift = {"lift all conductors of the cable at the control"};
    assertThat(found(FURNACE, FURNACE, lift)).isEqualTo("nothing");
    assertThat(found(new TouchingMetal("red", 0.5), lift)).isEqualTo("the board fuse opens");
    assertThat(found(new Touching("red", "white", 0.5, false), lift))
        .isEqualTo("gas valve pulls in");
    assertThat(found(new Touching("red", "white", 1, false), lift)).isEqualTo("nothing");
    Installation both =
        new Touching("red", "white", 0.5, false)
            .in(new Touching("red", "green", 0.5, false).in(FURNACE));
    assertThat(found(FURNACE, both, lift)).isEqualTo("gas valve pulls in, fan input pulls in");
  }

  @Test
  void whatASurveyFinds() {
    String[] survey = {"survey it with Bellwire"};
    assertThat(found(FURNACE, FURNACE, survey)).isEqualTo("all sound");
    assertThat(found(new Broken("white"), survey)).isEqualTo("white has no path to the far end");
    assertThat(found(new PoorJoint("yellow"), survey)).isEqualTo("yellow stands out");
    assertThat(found(new Touching("red", "white", 0.5, false), survey)).isEqualTo("red and white");
    assertThat(found(new Touching("red", "white", 0, false), survey)).isEqualTo("all sound");
    Installation both =
        new Broken("white")
            .in(new PoorJoint("yellow").in(new TouchingMetal("red", 0.5).in(FURNACE)));
    assertThat(found(FURNACE, both, survey))
        .isEqualTo("white has no path to the far end; yellow stands out; red and metal");
    Installation poor = new PoorJoint("yellow").in(new Broken("white").in(FURNACE));
    assertThat(found(FURNACE, poor, survey))
        .isEqualTo("white has no path to the far end; yellow stands out");
  }

  /** Half of the 15 ohm that are supposed of a poor joint tells it from a good one. */
  @Test
  void aConductorStandsOutFromHalfAPoorJointOn() {
    String[] survey = {"survey it with Bellwire"};
    assertThat(found(FURNACE, withOhms("red", 7.4), survey)).isEqualTo("all sound");
    assertThat(found(FURNACE, withOhms("red", 7.6), survey)).isEqualTo("red stands out");
  }

  private static Installation withOhms(String conductor, double more) {
    List<Cable.Conductor> conductors = new ArrayList<>();
    for (Cable.Conductor c : FURNACE.cable().conductors()) {
      double ohms = c.ohms() + (c.name().equals(conductor) ? more : 0);
      conductors.add(new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), ohms, 0));
    }
    return FURNACE.withCable(new Cable("drawn up", conductors, List.of()));
  }

  @Test
  void whatIsKnownToBeBrokenIsNoNews() {
    Installation spare = SampleLoops.HEAT_PUMP_O.healthy();
    Installation broken = new Broken("brown").in(spare);
    assertThat(found(broken, broken, "survey it with Bellwire")).isEqualTo("all sound");
  }

  /** A look under the control's cover costs 1 (CP), a survey ten times that. */
  @Test
  void nearAndCheapThingsComeFirst() {
    List<Step> steps = Steps.of(HEAT, Set.of(Symptom.NO_HEAT));
    List<Double> costs = steps.stream().map(Step::cost).toList();
    assertThat(costs)
        .containsExactly(
            1.0, 1.0, 1.0, 1.0, 1.5, 1.5, 1.5, 2.0, 4.0, 5.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0,
            3.0, 4.0, 4.0, 4.0, 4.0, 6.0, 10.0);
    assertThat(steps.stream().map(s -> measurement(s).cost())).isEqualTo(costs);
    List<Step> two = Steps.of(TWO, Set.of());
    assertThat(step(two, "between RC and RH at the control").cost()).isEqualTo(1);
    assertThat(step(two, "setting 'fan in heat'").cost()).isEqualTo(1);
    assertThat(step(Steps.of(FURNACE, Set.of()), "board fuse").cost()).isEqualTo(2);
    assertThat(step(two, "outdoor cable's Y").cost()).isEqualTo(4);
  }

  @Test
  void whatIsLiveSaysSoAndInWhichState() {
    List<Step> steps = Steps.of(HEAT, Set.of(Symptom.NO_HEAT));
    Step rest = step(steps, "'off'");
    Step call = step(steps, "'heat, calling'");
    Step lift = step(steps, "lift all conductors");
    Step ask = step(steps, "Is it so");
    assertThat(rest.live()).isEqualTo(1);
    assertThat(step(steps, "'heat, at rest'").live()).isEqualTo(2);
    assertThat(call.live()).isEqualTo(4);
    assertThat(ask.live()).isEqualTo(4);
    assertThat(lift.live()).isEqualTo(Trials.LIFTED);
    assertThat(measurement(rest).caution())
        .startsWith("Live, 24 V class")
        .doesNotContain("The equipment may start");
    for (Step runs : List.of(call, lift)) {
      assertThat(measurement(runs).caution())
          .startsWith("Live, 24 V class")
          .contains("The equipment may start");
    }
    assertThat(measurement(ask).caution()).startsWith("The equipment may start");
    for (Step step : steps) {
      boolean dead = words(step).startsWith("Power off") && !words(step).contains("power on");
      assertThat(step.live() == 0).as(words(step)).isEqualTo(dead);
    }
  }

  /** Strands that touch 0.04, lifted conductors 0.03, a survey 0.01. */
  @Test
  void errorsOfLooks() {
    List<Step> steps = Steps.of(FURNACE, Set.of());
    assertError(step(steps, "bare copper at the control"), 0.04);
    assertError(step(steps, "lift the cable at the equipment"), 0.04);
    assertError(step(steps, "lift all conductors"), 0.03);
    assertError(step(steps, "survey it with Bellwire"), 0.01);
  }

  private static void assertError(Step step, double error) {
    int code = step.code(new Case(FURNACE, new Simulation(FURNACE), Symptoms.NONE));
    Step.Answers answers = step.answers(Set.of(code));
    assertThat(answers.probability(1, code)).isCloseTo(error, within(1e-12));
  }
}
