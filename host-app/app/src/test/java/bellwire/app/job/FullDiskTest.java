package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A file system of 1 MB that is really full, in a process that may mount one (Linux). Not every
 * machine allows that: run by {@code -DexcludedGroups=}.
 */
@Tag("mounts")
class FullDiskTest {
  private static final int MAY_NOT = 77;

  @TempDir Path directory;

  @Test
  void aFullDiskIsToldInWordsAndTheVigilGoesOnOnceThereIsRoom() throws Exception {
    assumeTrue(Path.of("/usr/bin/unshare").toFile().canExecute(), "no unshare");
    String script =
        "mount -t tmpfs -o size=1m tmpfs \"$1\" || exit " + MAY_NOT + "; shift; exec \"$@\"";
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
                FullDiskWriter.class.getName(),
                directory.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    int ended = process.waitFor();
    assumeTrue(ended != MAY_NOT && !said.startsWith("unshare:"), "may not mount: " + said);
    System.out.print("FullDiskTest: " + said);
    assertThat(ended).as(said).isZero();
    assertThat(said).contains("the disk is full; make room, nothing acknowledged is lost");
  }
}
