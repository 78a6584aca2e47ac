package bellwire.simbench.control;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.simbench.control.Course.Step;
import bellwire.simbench.control.Course.Stretch;
import bellwire.simbench.control.Operation.Fan;
import bellwire.simbench.control.Operation.Mode;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Controls in the hands of somebody who turns every switch at any time. */
class AnyOperationsTest {
  private static final int CONTROLS = Integer.getInteger("bellwire.controls", 1000);
  private static final int OPERATIONS = 100;

  private static List<Step> steps(SplittableRandom random) {
    List<Step> steps = new ArrayList<>();
    double at = 0;
    for (int i = 0; i < OPERATIONS; i++) {
      at += Math.pow(10, random.nextDouble(-2, 3.1));
      steps.add(new Step(at, operation(random)));
    }
    return steps;
  }

  private static Operation operation(SplittableRandom random) {
    return switch (random.nextInt(10)) {
      case 0 -> Operation.power(false);
      case 1, 2 -> Operation.power(true);
      case 3 -> Operation.fan(random.nextBoolean() ? Fan.ON : Fan.AUTO);
      case 4, 5, 6 -> Operation.set(random.nextDouble(-6, 6));
      default -> Operation.mode(Mode.values()[random.nextInt(4)], random.nextDouble(-6, 6));
    };
  }

  @Test
  void aHealthyControlProtectsItsCompressorAllTheSame() {
    long seed = 4400;
    System.out.println("any operations: seed=" + seed + " controls=" + CONTROLS);
    SplittableRandom random = new SplittableRandom(seed);
    int runs = 0;
    int rests = 0;
    for (int i = 0; i < CONTROLS; i++) {
      Kind kind = Kind.values()[i % Kind.values().length];
      List<Step> steps = steps(random);
      Course course =
          Course.run(
              ControlSetup.draw(kind, random), i, steps, steps.get(OPERATIONS - 1).seconds() + 999);
      List<Stretch> all = course.stretches("Y1");
      for (int k = 2; k < all.size() && !all.get(k).closed(); k += 2) {
        if (all.get(k).untilNanos() < course.endNanos()) {
          assertThat(all.get(k).seconds()).as("%d %s", i, course.inWords()).isGreaterThan(300);
          rests++;
        }
      }
      runs += course.calls("Y1").size();
      assertThat(meeting(course)).as("%d %s", i, course.inWords()).isZero();
      assertThat(valveMoves(course)).as("%d %s", i, course.inWords()).isZero();
    }
    assertThat(runs).isGreaterThan(2 * CONTROLS);
    assertThat(rests).isGreaterThan(CONTROLS);
  }

  /**
   * Nanoseconds for which W1 is on beside a Y1 that cools, or beside any where they may not meet.
   */
  private static long meeting(Course course) {
    Kind kind = course.setup().kind();
    boolean auxiliary = kind == Kind.HEAT_PUMP_O || kind == Kind.HEAT_PUMP_B;
    long sum = 0;
    for (Stretch w1 : course.calls("W1")) {
      for (Stretch y1 : course.calls("Y1")) {
        long from = Math.max(w1.fromNanos(), y1.fromNanos());
        boolean cools = course.closed(kind.valve(), y1.fromNanos()) == (kind == Kind.HEAT_PUMP_O);
        if (!auxiliary || cools) {
          sum += Math.max(0, Math.min(w1.untilNanos(), y1.untilNanos()) - from);
        }
      }
    }
    return sum;
  }

  /** Moves of the valve under a running compressor, but where the power's loss opens everything. */
  private static long valveMoves(Course course) {
    Kind kind = course.setup().kind();
    return course.stretches(kind.valve()).stream()
        .mapToLong(Stretch::fromNanos)
        .filter(at -> course.closed("Y1", at) && course.closed("Y1", at + 30_000_000))
        .count();
  }

  @Test
  void noMixtureOfDefectsKeepsAControlFromSettling() {
    long seed = 4500;
    System.out.println("mixed defects: seed=" + seed + " controls=" + CONTROLS);
    SplittableRandom random = new SplittableRandom(seed);
    long edges = 0;
    for (int i = 0; i < CONTROLS; i++) {
      Kind kind = Kind.values()[i % Kind.values().length];
      ControlSetup setup = ControlSetup.draw(kind, random);
      for (Defect defect : Defect.values()) {
        if (defect.canShow(kind) && random.nextInt(4) == 0) {
          setup = setup.with(defect, random);
        }
      }
      List<Step> steps = steps(random);
      edges +=
          Course.run(setup, i, steps, steps.get(OPERATIONS - 1).seconds() + 999).edges().size();
    }
    assertThat(edges).isGreaterThan(10L * CONTROLS);
  }
}
