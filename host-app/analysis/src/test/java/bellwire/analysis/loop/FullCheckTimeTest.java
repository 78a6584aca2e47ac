package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.Ngspice;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Shows the full check's processor time, and ngspice's beside it; neither is ever judged. */
class FullCheckTimeTest {
  /** How often again, then counts of conductors. */
  private static final String RUNS = System.getProperty("bellwire.fullCheck", "1,8");

  /** Installations whose circuits ngspice solves too. */
  private static final int BESIDE = Integer.getInteger("bellwire.beside", 10);

  @TempDir Path directory;

  /** A first check needs a machine of its own. */
  @Test
  void fullCheck() throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(FullCheckTime.class.getName());
    command.addAll(List.of(RUNS.split(",", -1)));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    System.out.print(printed);
    assertThat(process.waitFor()).as(printed).isZero();
  }

  @Test
  void besideNgspice() throws Exception {
    Ngspice.require();
    LoopsBesideNgspice.Compared compared = LoopsBesideNgspice.compare(BESIDE, directory);
    System.out.printf(
        "%d circuits: %.0f ms, %.1f us each; ngspice, %d in one process: %.0f ms, %.0f us each;"
            + " ratio %.0f%n",
        compared.circuits(),
        compared.ourNanos() / 1e6,
        compared.ourNanos() / 1e3 / compared.circuits(),
        LoopsBesideNgspice.AT_ONCE,
        compared.theirNanos() / 1e6,
        compared.theirNanos() / 1e3 / compared.circuits(),
        compared.theirNanos() / compared.ourNanos());
    assertThat(compared.circuits()).isGreaterThan(BESIDE);
  }
}
