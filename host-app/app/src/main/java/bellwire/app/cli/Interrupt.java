package bellwire.app.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** Turns Ctrl-C into a request that the measurement ends in good order, and gives it time to. */
final class Interrupt {
  private static final long PATIENCE_MILLIS = 2500;

  private final CountDownLatch done = new CountDownLatch(1);
  private volatile boolean pressed;

  void arm() {
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  pressed = true;
                  try {
                    done.await(PATIENCE_MILLIS, TimeUnit.MILLISECONDS);
                  } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                  }
                },
                "interrupt"));
  }

  boolean pressed() {
    return pressed;
  }

  void done() {
    done.countDown();
  }
}
