package bellwire.simbench.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.simbench.control.ControlSetup.ContactKind;
import bellwire.simbench.control.Operation.Mode;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Simulated controls, healthy and not, through everything that they can do. */
class SimulatedControlTest {
  private static final int HEALTHY = Integer.getInteger("bellwire.controls", 1000);
  private static final int EACH_DEFECT = HEALTHY / 50;

  /**
   * Times follow from the healthy set-up: 1 s to a call, 0.3 s to its end, G 0.1 s ahead and 30 s
   * behind, the valve 0.2 s on either side, second stage after 60 s, 302 s of rest that start anew
   * with the power.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "FURNACE_COOLING | W1+11.0 W1-210.3 G+631.0 Y1+631.1 Y1-830.3 G-860.3 G+1132.3 Y1+1132.4"
            + " G-1240.1 Y1-1240.1 G+1552.0 Y1+1552.1 Y1-1670.3 G-1700.3 G+2091.0 G-2110.3",
        "ELECTRIC_HEAT | G+11.0 W1+11.1 W1-210.3 G-240.3 G+631.0 Y1+631.1 Y1-830.3 G-860.3 G+1132.3"
            + " Y1+1132.4 G-1240.1 Y1-1240.1 G+1552.0 Y1+1552.1 Y1-1670.3 G-1700.3 G+2091.0"
            + " G-2110.3",
        "HEAT_PUMP_O | G+11.0 Y1+11.1 W1+211.1 Y1-910.3 W1-910.3 G-940.3 O+1331.0 G+1331.2"
            + " Y1+1331.3 Y1-1530.3 O-1530.5 G-1560.3 O+1832.3 G+1832.5 Y1+1832.6 O-1940.1 G-1940.1"
            + " Y1-1940.1 O+2252.0 G+2252.2 Y1+2252.3 Y1-2370.3 O-2370.5 G-2400.3 G+2791.0 G-2810.3"
            + " G+3131.0 W1+3131.1 W1-3190.3 G-3220.3",
        "HEAT_PUMP_B | B+11.0 G+11.2 Y1+11.3 W1+211.1 Y1-910.3 W1-910.3 B-910.5 G-940.3 G+1331.0"
            + " Y1+1331.1 Y1-1530.3 G-1560.3 G+1832.3 Y1+1832.4 G-1940.1 Y1-1940.1 G+2252.0"
            + " Y1+2252.1 Y1-2370.3 G-2400.3 G+2791.0 G-2810.3 G+3131.0 W1+3131.1 W1-3190.3"
            + " G-3220.3",
        "TWO_STAGE | W1+11.0 W2+211.0 W2-910.3 W1-910.3 G+1331.0 Y1+1331.1 Y1-1530.3 G-1560.3"
            + " G+1832.3 Y1+1832.4 G-1940.1 Y1-1940.1 G+2252.0 Y1+2252.1 Y1-2370.3 G-2400.3"
            + " G+2791.0 G-2810.3",
        "DUAL_FUEL | G+11.0 Y1+11.1 Y1-210.3 G-211.3 W1+211.3 W1-910.3 O+1331.0 G+1331.2 Y1+1331.3"
            + " Y1-1530.3 O-1530.5 G-1560.3 O+1832.3 G+1832.5 Y1+1832.6 O-1940.1 G-1940.1 Y1-1940.1"
            + " O+2252.0 G+2252.2 Y1+2252.3 Y1-2370.3 O-2370.5 G-2400.3 G+2791.0 G-2810.3"
            + " W1+3131.0 W1-3190.3",
        "HEAT_ONLY | W1+11.0 W1-210.3",
        "BOILER_DRY | W1+11.0 W1-210.3",
        "ZONE_PANEL | W1+11.0 W1-210.3 G+631.0 Y1+631.1 Y1-830.3 G-860.3 G+1132.3 Y1+1132.4"
            + " G-1240.1 Y1-1240.1 G+1552.0 Y1+1552.1 Y1-1670.3 G-1700.3 G+2091.0 G-2110.3",
        "TWO_SUPPLIES | W1+11.0 W1-210.3 G+631.0 Y1+631.1 Y1-830.3 G-860.3 G+1132.3 Y1+1132.4"
            + " G-1240.1 Y1-1240.1 G+1552.0 Y1+1552.1 Y1-1670.3 G-1700.3 G+2091.0 G-2110.3",
      })
  void aHealthyControlCallsInThisOrder(Kind kind, String words) {
    Course course = Course.ofEverything(ControlSetup.healthy(kind), 1);
    assertThat(sorted(course.inWords())).isEqualTo(sorted(words));
    assertThat(Signs.of(course)).isEmpty();
    assertThat(Signs.missed(course)).isEmpty();
  }

  /**
   * Edges that the contacts' own few milliseconds may put in either order are compared as a set.
   */
  private static List<String> sorted(String words) {
    return java.util.Arrays.stream(words.split(" ")).sorted().toList();
  }

  @Test
  void healthyOnesStayWithinWhatIsStatedForThem() {
    long seed = 4100;
    System.out.println("healthy controls: seed=" + seed + " count=" + HEALTHY);
    SplittableRandom random = new SplittableRandom(seed);
    int semiconductors = 0;
    for (int i = 0; i < HEALTHY; i++) {
      Kind kind = Kind.values()[i % Kind.values().length];
      ControlSetup setup = ControlSetup.draw(kind, random);
      Course course = Course.ofEverything(setup, i);
      assertThat(Signs.of(course)).as("%d %s %s", i, setup, course.inWords()).isEmpty();
      assertThat(Signs.missed(course)).as("%d %s %s", i, setup, course.inWords()).isEmpty();
      semiconductors += setup.contacts().kind() == ContactKind.SEMICONDUCTOR ? 1 : 0;
    }
    assertThat(semiconductors).isBetween(HEALTHY / 3, 2 * HEALTHY / 3);
  }

  @ParameterizedTest
  @EnumSource(Defect.class)
  void everyDefectShowsOnEveryKindThatCanHaveIt(Defect defect) {
    long seed = 4200 + defect.ordinal();
    System.out.println(defect + ": seed=" + seed + " each=" + EACH_DEFECT);
    SplittableRandom random = new SplittableRandom(seed);
    for (Kind kind : Kind.values()) {
      for (int i = 0; i < EACH_DEFECT && defect.canShow(kind); i++) {
        ControlSetup setup = ControlSetup.draw(kind, random).with(defect, random);
        Course course = Course.ofEverything(setup, i);
        assertThat(Signs.of(course)).as("%d %s %s", i, setup, course.inWords()).contains(defect);
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Kind.class)
  void aSeedRepeatsToTheNanosecond(Kind kind) {
    ControlSetup setup =
        ControlSetup.draw(kind, new SplittableRandom(7))
            .with(Defect.CHATTER, new SplittableRandom(8));
    Course course = Course.ofEverything(setup, 9);
    assertThat(Course.ofEverything(setup, 9)).isEqualTo(course);
    assertThat(Course.ofEverything(setup, 10).inWords()).isNotEqualTo(course.inWords());
  }

  @Test
  void lookingAheadChangesNothing() {
    ControlSetup setup = ControlSetup.draw(Kind.HEAT_PUMP_B, new SplittableRandom(3));
    SimulatedControl asked = new SimulatedControl(setup, List.of(), 5);
    SimulatedControl sampled = new SimulatedControl(setup, List.of(), 5);
    List<Course.Step> steps = Course.everything(setup.kind());
    int step = 0;
    for (long nanos = 0; nanos < 2_000_000_000_000L; nanos += 97_000_003) {
      while (step < steps.size() && steps.get(step).nanos() <= nanos) {
        asked.operate(steps.get(step).operation(), nanos);
        sampled.operate(steps.get(step).operation(), nanos);
        step++;
      }
      asked.nextChange(nanos);
      for (String terminal : setup.kind().terminals()) {
        assertThat(asked.closed(terminal, nanos)).isEqualTo(sampled.closed(terminal, nanos));
      }
    }
    assertThat(step).isGreaterThan(5);
  }

  @Test
  void aRelayBouncesForSoLongAndNoLonger() {
    SplittableRandom random = new SplittableRandom(4300);
    double longest = 0;
    int toggles = 0;
    for (int i = 0; i < 200; i++) {
      Course course =
          Course.run(
              ControlSetup.draw(Kind.BOILER_DRY, random),
              i,
              List.of(
                  new Course.Step(1, Operation.mode(Mode.HEAT, 2)),
                  new Course.Step(20, Operation.set(-1))),
              30);
      List<Course.Edge> closing = course.edges().stream().filter(e -> e.seconds() < 20).toList();
      List<Course.Edge> opening = course.edges().stream().filter(e -> e.seconds() >= 20).toList();
      assertThat(closing.size()).isOdd();
      assertThat(opening.size()).isOdd();
      double most = course.setup().contacts().bounceMillis() * 1e-3 + 1e-8;
      assertThat(length(closing)).isLessThanOrEqualTo(most);
      assertThat(length(opening)).isLessThanOrEqualTo(most / 7 + 1e-8);
      longest = Math.max(longest, length(closing));
      toggles += closing.size() - 1;
    }
    assertThat(longest).isBetween(1.5e-3, 3e-3);
    assertThat(toggles).isGreaterThan(400);
  }

  private static double length(List<Course.Edge> edges) {
    return (edges.get(edges.size() - 1).nanos() - edges.get(0).nanos()) * 1e-9;
  }

  /** The control's own times, all of them, are longer by its clock's error. */
  @Test
  void aSlowClockRestsLonger() {
    ControlSetup exact = ControlSetup.healthy(Kind.ZONE_PANEL);
    ControlSetup slow =
        new ControlSetup(
            exact.kind(),
            exact.timing(),
            exact.contacts(),
            exact.feed(),
            exact.supplies(),
            false,
            0.004,
            0,
            List.of());
    double rest = rest(Course.ofEverything(exact, 1));
    assertThat(rest(Course.ofEverything(slow, 1)) - rest).isBetween(1.19, 1.22);
  }

  private static double rest(Course course) {
    List<Course.Stretch> calls = course.calls("Y1");
    return (calls.get(1).fromNanos() - calls.get(0).untilNanos()) * 1e-9;
  }

  /**
   * Turned straight from cooling to heat, with Y1 held by its minimum on time: its auxiliary heat
   * once came beside the compressor that still cooled. Y1 opens after 100 s, rests 302 s, heats,
   * and W1 follows after 60 s.
   */
  @Test
  void auxiliaryHeatWaitsForTheCompressorToHeat() {
    ControlSetup plain = ControlSetup.healthy(Kind.HEAT_PUMP_O);
    ControlSetup held =
        new ControlSetup(
            plain.kind(),
            new ControlSetup.Timing(1, 0.3, 60, false, 302, 100, 0, 1, 0.1, 0.2),
            plain.contacts(),
            plain.feed(),
            plain.supplies(),
            false,
            0,
            0,
            List.of());
    Course course =
        Course.run(
            held,
            1,
            List.of(
                new Course.Step(0, Operation.mode(Mode.COOL, -4)),
                new Course.Step(70, Operation.mode(Mode.HEAT, 4))),
            600);
    assertThat(sorted(course.inWords()))
        .isEqualTo(sorted("O+1.0 G+1.2 Y1+1.3 G-101.3 Y1-101.3 O-101.5 G+403.3 Y1+403.4 W1+463.5"));
  }

  /** 2 K asked for, 6 K an hour gained by itself: satisfied after 20 minutes. */
  @Test
  void aRoomThatWarmsByItselfEndsTheCall() {
    ControlSetup still = ControlSetup.healthy(Kind.HEAT_ONLY);
    ControlSetup warming =
        new ControlSetup(
            still.kind(),
            still.timing(),
            still.contacts(),
            still.feed(),
            still.supplies(),
            false,
            0,
            6,
            List.of());
    List<Course.Step> steps = List.of(new Course.Step(0, Operation.mode(Mode.HEAT, 2)));
    assertThat(Course.run(still, 1, steps, 3000).inWords()).isEqualTo("W1+1.0");
    assertThat(Course.run(warming, 1, steps, 3000).inWords()).isEqualTo("W1+1.0 W1-1200.0");
  }

  @Test
  void mistakesOfTheCallerAreNamed() {
    ControlSetup setup = ControlSetup.healthy(Kind.BOILER_DRY);
    SimulatedControl control = new SimulatedControl(setup, List.of("W1"), 1);
    control.closed("W1", 5);
    assertThatThrownBy(() -> control.closed("W1", 4)).hasMessageContaining("nanos=4");
    assertThatThrownBy(() -> control.closed("Y1", 6)).hasMessageContaining("terminal=Y1");
    assertThatThrownBy(() -> new SimulatedControl(setup, List.of("", "Q"), 1))
        .hasMessageContaining("terminal=Q");
    assertThatThrownBy(() -> setup.with(Defect.NO_REST, new SplittableRandom(1)))
        .hasMessageContaining("defect=NO_REST");
    assertThatThrownBy(() -> Operation.set(Double.NaN)).hasMessageContaining("setKelvin=NaN");
  }
}
