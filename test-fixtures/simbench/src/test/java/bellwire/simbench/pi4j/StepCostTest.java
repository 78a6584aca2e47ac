package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Rate;
import org.junit.jupiter.api.Test;

/**
 * Hours of virtual time are tens of millions of steps: what one costs decides how long tests take.
 */
class StepCostTest {
  private static final int STEPS = 1_000_000;

  @Test
  void aStepWithoutWorkIsCheap() {
    try (Rig rig = new Rig().ready()) {
      double idle = nanosPerStep(rig);
      rig.program(Rig.driving(Rate.SPS_2_5, 4096));
      rig.run(10);
      double waiting = nanosPerStep(rig);
      // Ten times what was aimed at: a slow or busy machine must not fail the build.
      assertThat(idle).as("idle step, ns").isLessThan(10_000);
      assertThat(waiting).as("step within a conversion, ns").isLessThan(10_000);
      System.out.printf("step cost: idle %.0f ns, within a conversion %.0f ns%n", idle, waiting);
    }
  }

  private static double nanosPerStep(Rig rig) {
    rig.run(STEPS / 10);
    long start = System.nanoTime();
    rig.run(STEPS);
    return (System.nanoTime() - start) / (double) STEPS;
  }
}
