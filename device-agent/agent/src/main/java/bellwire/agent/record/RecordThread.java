package bellwire.agent.record;

/** Does the disk's work, apart from the agent's steps. */
final class RecordThread {
  private static final long PAUSE_MILLIS = 20;
  private static final long CLOSE_MILLIS = 1500;

  private final Exchange exchange;
  private final Recorder recorder;
  private final Thread thread;
  private volatile boolean closing;

  RecordThread(Exchange exchange, Recorder recorder) {
    this.exchange = exchange;
    this.recorder = recorder;
    thread = new Thread(this::run, "record");
    thread.setDaemon(true);
    thread.start();
  }

  /** Waits for what was accepted to be on the disk, but not for ever. */
  void close() {
    closing = true;
    try {
      thread.join(CLOSE_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void run() {
    try {
      while (!closing) {
        recorder.work(System.nanoTime() / 1000);
        exchange.await(PAUSE_MILLIS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      recorder.close(System.nanoTime() / 1000);
    }
  }
}
