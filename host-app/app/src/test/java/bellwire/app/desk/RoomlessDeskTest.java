package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A window on a file system of 2 MB that is really read-only, then really full, in a process that
 * may mount one (Linux). Not every machine allows that: run by {@code -DexcludedGroups=}.
 */
@Tag("mounts")
@Tag("window")
class RoomlessDeskTest {
  private static final int MAY_NOT = 77;

  @TempDir Path directory;

  @Test
  void whatIsTypedWithoutRoomStaysOnTheScreenAndIsKeptWhenThereIsSome() throws Exception {
    DeskRig.require();
    assumeTrue(Path.of("/usr/bin/unshare").toFile().canExecute(), "no unshare");
    String script =
        "mount -t tmpfs -o size=2m tmpfs \"$1\" || exit " + MAY_NOT + "; shift; exec \"$@\"";
    Process process =
        new ProcessBuilder(
                "unshare",
                "-rm",
                "sh",
                "-c",
                script,
                "sh",
                directory.toString(),
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty(
                    "surefire.test.class.path", System.getProperty("java.class.path")),
                RoomlessDesk.class.getName(),
                directory.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    int ended = process.waitFor();
    assumeTrue(ended != MAY_NOT && !said.startsWith("unshare:"), "may not mount: " + said);
    System.out.print("RoomlessDeskTest: " + said);
    assertThat(ended).as(said).isZero();
    assertThat(said).contains("read-only: ", "job.bellwire", "kept: ");
  }
}
