package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message.EventSamples;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Rate;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Hours of virtual time are tens of millions of steps: what one costs decides how long tests take.
 */
class StepCostTest {
  private static final int STEPS = 500_000;

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

  /** A day is 86.4 million of them. */
  @ParameterizedTest
  @EnumSource(names = {"CONTINUITY", "TOUCH"})
  void aQuietTickOfAVigilIsCheapAndLeavesNoGarbage(KeepVigil.Kind kind) {
    try (Rig rig = new Rig().ready()) {
      rig.events.quiet = true;
      rig.vigil(kind, 0xFFFF, 0, KeepVigil.MOST_MICROS);
      double nanos = nanosPerStep(rig);
      ThreadMXBean thread = (ThreadMXBean) ManagementFactory.getThreadMXBean();
      long before = thread.getCurrentThreadAllocatedBytes();
      rig.run(STEPS);
      double bytes = (thread.getCurrentThreadAllocatedBytes() - before) / (double) STEPS;
      System.out.printf("step cost: %s %.0f ns, %.1f bytes of garbage%n", kind, nanos, bytes);
      assertThat(nanos).as("step of a vigil, ns").isLessThan(12_000);
      assertThat(bytes).as("garbage of a step").isLessThan(24);
      int ticks = 0;
      for (EventSamples samples : rig.data(EventSamples.class)) {
        assertThat(samples.ticks()).hasSize(1);
        ticks += samples.ticks()[0];
      }
      assertThat(ticks).isGreaterThan(2 * STEPS);
    }
  }

  private static double nanosPerStep(Rig rig) {
    rig.run(STEPS / 10);
    long start = System.nanoTime();
    rig.run(STEPS);
    return (System.nanoTime() - start) / (double) STEPS;
  }
}
