package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

/** That waiting for a processor is told from computing and from being held up. */
class ProcessorWaitTest {

  @Test
  void aCrowdedMachineIsTold() throws Exception {
    Assumptions.assumeTrue(Files.exists(Path.of("/proc/thread-self/schedstat")), "no Linux");
    AtomicBoolean over = new AtomicBoolean();
    List<Thread> others = new ArrayList<>();
    for (int i = 0; i < 4 * Runtime.getRuntime().availableProcessors(); i++) {
      Thread other =
          new Thread(
              () -> {
                while (!over.get()) {
                  Thread.onSpinWait();
                }
              });
      other.start();
      others.add(other);
    }
    ProcessorWait wait = new ProcessorWait();
    long before = wait.nanos();
    long until = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(400);
    while (System.nanoTime() < until) {
      Thread.onSpinWait();
    }
    long waited = wait.nanos() - before;
    over.set(true);
    for (Thread other : others) {
      other.join();
    }
    // A fifth of a processor is left for each: four fifths of the time are waited.
    assertThat(waited).isGreaterThan(TimeUnit.MILLISECONDS.toNanos(100));
  }

  @Test
  void beingHeldUpIsNoWaitingForAProcessor() throws Exception {
    ProcessorWait wait = new ProcessorWait();
    long before = wait.nanos();
    Thread held = Thread.currentThread();
    held.join(200);
    assertThat(wait.nanos() - before).isLessThan(TimeUnit.MILLISECONDS.toNanos(150));
  }
}
