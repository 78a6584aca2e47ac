package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Toolkit;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import javax.swing.SwingUtilities;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** That the watch sees a stall, and counts right. */
@Tag("alone")
class EventThreadWatchTest {

  @Test
  void countsByDoublingSteps() {
    EventThreadWatch watch = EventThreadWatch.detached();
    watch.took(TimeUnit.MICROSECONDS.toNanos(900), "a");
    watch.took(TimeUnit.MICROSECONDS.toNanos(1000), "b");
    watch.took(TimeUnit.MILLISECONDS.toNanos(100), "c");
    watch.took(TimeUnit.MILLISECONDS.toNanos(101), "d");
    assertThat(watch.events()).isEqualTo(4);
    assertThat(watch.stalls()).isEqualTo(1);
    assertThat(watch.worstMillis()).isEqualTo(101);
    assertThat(watch.worstEvent()).isEqualTo("d");
    assertThat(watch.histogram().lines().map(String::strip))
        .containsExactly(
            "under     1 ms: 1",
            "under     2 ms: 1",
            "under   128 ms: 2",
            "events: 4, longest 101.0 ms (d), longer than 100 ms: 1; no processor free for 0 ms in all");
    watch.reset();
    assertThat(watch.events()).isZero();
    assertThat(watch.worstMillis()).isZero();
  }

  @Test
  void seesTheThreadHeldUp() throws Exception {
    DeskRig.require();
    Object before = Toolkit.getDefaultToolkit().getSystemEventQueue().getClass();
    try (EventThreadWatch watch = EventThreadWatch.start()) {
      SwingUtilities.invokeAndWait(
          () -> {
            long until = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(150);
            while (System.nanoTime() < until) {
              LockSupport.parkNanos(until - System.nanoTime());
            }
          });
      SwingUtilities.invokeAndWait(() -> {});
      assertThat(watch.worstMillis()).isGreaterThanOrEqualTo(150);
      assertThat(watch.stalls()).isGreaterThanOrEqualTo(1);
    }
    assertThat(Toolkit.getDefaultToolkit().getSystemEventQueue().getClass()).isEqualTo(before);
  }
}
