package bellwire.agent.runtime;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The words of sd_notify(3), as they arrive on a datagram socket that somebody else made. */
class SupervisorTest {
  private static final long PATIENCE_NANOS = 20_000_000_000L;

  @TempDir Path directory;

  @Test
  void readyAliveNowAndThenAndStopping() throws Exception {
    Path socket = directory.resolve("notify");
    Path heard = directory.resolve("heard");
    Process listener = listener(socket, heard);
    try {
      await(() -> Files.exists(socket), "no socket");
      try (Supervisor supervisor = Supervisor.of(socket.toString(), "400000")) {
        supervisor.ready();
        supervisor.alive(0);
        supervisor.alive(99_999); // a quarter of the time that systemd waits has not passed
        supervisor.alive(100_000);
      }
      String all = "READY=1WATCHDOG=1WATCHDOG=1STOPPING=1";
      await(() -> Files.size(heard) >= all.length(), "not all was heard");
      assertThat(Files.readString(heard, StandardCharsets.UTF_8)).isEqualTo(all);
    } finally {
      listener.destroyForcibly().waitFor();
    }
  }

  @Test
  void whereNobodyAskedOrNobodyListensNothingHappens() {
    try (Supervisor nobody = Supervisor.of(null, null);
        Supervisor deaf = Supervisor.of(directory.resolve("nobody").toString(), "nonsense")) {
      nobody.ready();
      nobody.alive(1);
      deaf.ready();
      deaf.alive(1);
    }
  }

  private interface Seen {
    boolean yet() throws IOException;
  }

  private static void await(Seen seen, String otherwise) throws IOException {
    long until = System.nanoTime() + PATIENCE_NANOS;
    while (!seen.yet()) {
      if (System.nanoTime() > until) {
        fail(otherwise);
      }
      LockSupport.parkNanos(5_000_000);
    }
  }

  private static Process listener(Path socket, Path heard) throws IOException {
    Files.createFile(heard);
    try {
      return new ProcessBuilder("socat", "-u", "UNIX-RECV:" + socket, "STDOUT")
          .redirectOutput(heard.toFile())
          .redirectErrorStream(true)
          .start();
    } catch (IOException e) {
      String message = "socat is not installed (Debian package socat)";
      if ("true".equals(System.getenv("CI")) || Boolean.getBoolean("CI")) {
        fail(message);
      }
      return abort(message);
    }
  }
}
