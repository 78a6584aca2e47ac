package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.circuit.Ngspice;
import bellwire.analysis.loop.FullCheck.Solving;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Shows the full check's processor time, and ngspice's beside it; neither is ever judged. */
class FullCheckTimeTest {
  /** How often again, then counts of conductors. */
  private static final String RUNS = System.getProperty("bellwire.fullCheck", "1,8");

  /** Installations whose circuits ngspice solves too. */
  private static final int BESIDE = Integer.getInteger("bellwire.beside", 10);

  private static final int AT_ONCE = 250;

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
    List<Solving> all = new FullCheck(8).solvings(BESIDE);
    solve(all);
    long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    double[] ours = solve(all);
    double nanos = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start;
    Duration theirs = Duration.ZERO;
    int compared = 0;
    for (int from = 0; from < all.size(); from += AT_ONCE) {
      StringBuilder text = new StringBuilder("control loops\n");
      List<InstallationNetlist> netlists = new ArrayList<>();
      for (Solving s : all.subList(from, Math.min(from + AT_ONCE, all.size()))) {
        String prefix = "c" + netlists.size();
        netlists.add(new InstallationNetlist(s.installation(), s.condition(), prefix, text));
      }
      text.append(InstallationNetlist.analysis()).append(".end\n");
      Map<String, Complex> spice = Ngspice.oneFrequency(directory, text.toString());
      theirs = theirs.plus(Ngspice.processorTime(directory));
      for (InstallationNetlist netlist : netlists) {
        double amps =
            netlist.pieces().stream().mapToDouble(p -> netlist.amps(spice, p).norm()).sum();
        assertThat(ours[compared]).isCloseTo(amps, within(1e-3 * amps + 1e-6));
        compared++;
      }
    }
    System.out.printf(
        "%d circuits: %.0f ms, %.1f us each; ngspice, %d in one process: %d ms, %.0f us each;"
            + " ratio %.0f%n",
        compared,
        nanos / 1e6,
        nanos / 1e3 / compared,
        AT_ONCE,
        theirs.toMillis(),
        theirs.toNanos() / 1e3 / compared,
        theirs.toNanos() / nanos);
    assertThat(compared).isEqualTo(all.size()).isGreaterThan(BESIDE);
  }

  /** The sum of all elements' currents, of each circuit; laying an installation out included. */
  private static double[] solve(List<Solving> all) {
    double[] sums = new double[all.size()];
    Installation last = null;
    LoopCircuit circuit = null;
    for (int k = 0; k < sums.length; k++) {
      Installation installation = all.get(k).installation();
      if (circuit == null || installation != last) {
        circuit = new LoopCircuit(installation);
        last = installation;
      }
      Solved solved = circuit.solve(all.get(k).condition());
      for (int b = 0; b < circuit.branches().size(); b++) {
        sums[k] += solved.amps(b);
      }
    }
    return sums;
  }
}
