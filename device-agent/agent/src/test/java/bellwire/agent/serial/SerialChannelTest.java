package bellwire.agent.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Over a pseudo-terminal pair, the nearest thing to a serial cable without one. */
class SerialChannelTest {
  private static final long LIMIT_NANOS = TimeUnit.SECONDS.toNanos(20);

  @TempDir Path directory;

  @Test
  void bytesCrossInOrderBothWays() throws Exception {
    Process pair = pair();
    try (SerialChannel a = SerialChannel.open(directory.resolve("a").toString(), 921_600);
        SerialChannel b = SerialChannel.open(directory.resolve("b").toString(), 921_600)) {
      byte[] sent = new byte[200_000];
      new SplittableRandom(3).nextBytes(sent);
      assertThat(carry(a, b, sent)).isEqualTo(sent);
      assertThat(carry(b, a, sent)).isEqualTo(sent);
      assertThat(a.dropped() + b.dropped()).isZero();
    } finally {
      pair.destroy();
    }
  }

  @Test
  void aLostDeviceIsOpenedAgain() throws Exception {
    Process pair = pair();
    try (SerialChannel a = SerialChannel.open(directory.resolve("a").toString(), 921_600)) {
      pair.destroy();
      pair.waitFor();
      pair = pair();
      try (SerialChannel b = SerialChannel.open(directory.resolve("b").toString(), 921_600)) {
        // The first bytes may be lost, as with any pulled plug; the link sends again.
        byte[] into = new byte[64];
        long deadline = System.nanoTime() + LIMIT_NANOS;
        int arrived = 0;
        while (arrived == 0 && System.nanoTime() < deadline) {
          b.write(new byte[] {42}, 0, 1);
          LockSupport.parkNanos(20_000_000);
          arrived = a.read(into);
        }
        assertThat(arrived).isPositive();
        assertThat(into[0]).isEqualTo((byte) 42);
      }
    } finally {
      pair.destroy();
    }
  }

  @Test
  void aMissingDeviceIsOneSentence() {
    assertThatThrownBy(() -> SerialChannel.open("/dev/no-such-device", 9600))
        .isInstanceOf(SerialTrouble.class)
        .hasMessageContaining("/dev/no-such-device: ");
  }

  private static byte[] carry(SerialChannel from, SerialChannel to, byte[] bytes) {
    byte[] received = new byte[bytes.length];
    byte[] into = new byte[4096];
    int sent = 0;
    int got = 0;
    long deadline = System.nanoTime() + LIMIT_NANOS;
    while (got < bytes.length && System.nanoTime() < deadline) {
      // Half a queue's worth ahead at most.
      if (sent < bytes.length && sent - got < 100_000) {
        int length = Math.min(1000, bytes.length - sent);
        from.write(bytes, sent, length);
        sent += length;
      }
      int count = to.read(into);
      System.arraycopy(into, 0, received, got, count);
      got += count;
      if (count == 0) {
        LockSupport.parkNanos(100_000);
      }
    }
    return received;
  }

  private Process pair() throws IOException, InterruptedException {
    assumeTrue(installed(), "socat is not installed");
    Path a = directory.resolve("a");
    Path b = directory.resolve("b");
    Process process =
        new ProcessBuilder(
                "socat", "PTY,link=" + a + ",raw,echo=0", "PTY,link=" + b + ",raw,echo=0")
            .redirectErrorStream(true)
            .start();
    long deadline = System.nanoTime() + LIMIT_NANOS;
    while (!(Files.exists(a) && Files.exists(b)) && System.nanoTime() < deadline) {
      LockSupport.parkNanos(5_000_000);
    }
    return process;
  }

  private static boolean installed() throws InterruptedException {
    try {
      return new ProcessBuilder("socat", "-V").redirectErrorStream(true).start().waitFor() == 0;
    } catch (IOException e) {
      return false;
    }
  }
}
