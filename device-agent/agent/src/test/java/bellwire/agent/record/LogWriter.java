package bellwire.agent.record;

import bellwire.link.DataRing;
import java.nio.file.Path;

/**
 * A process that records frames as fast as its disk takes them, says up to which number they
 * survive a power cut, and is killed: {@code LogWriter directory boot}.
 */
final class LogWriter {
  private LogWriter() {}

  public static void main(String[] arguments) throws InterruptedException {
    long boot = Long.parseLong(arguments[1]);
    FrameLog log =
        FrameLog.open(
            new RecordSettings(Path.of(arguments[0]), 256 << 20), boot, new DataRing(200, 1 << 20));
    log.recording(true);
    long said = 0;
    for (long start = System.nanoTime(); System.nanoTime() - start < 60_000_000_000L; ) {
      log.step(System.nanoTime() / 1000);
      for (int i = 0; i < 20; i++) {
        log.add(LogBench.frame(boot, log.next()));
      }
      String trouble = log.pollTrouble();
      if (trouble != null) {
        System.out.println("trouble " + trouble);
      }
      long safe = log.safeBelow();
      if (safe > said) {
        said = safe;
        System.out.println("safe " + safe + " " + log.dropped() + " .");
      }
      Thread.sleep(10);
    }
  }
}
