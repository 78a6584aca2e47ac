package bellwire.benchmarks;

import bellwire.analysis.circuit.Ngspice;
import bellwire.analysis.loop.LoopsBesideNgspice;
import bellwire.analysis.network.Network;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;

/** Circuits solved beside ngspice, many in one of its processes; its start and reading count. */
final class SpiceRows {
  private static final long SEED = 9;
  private static final int RUNS = 5;
  private static final String NGSPICE = "ngspice, all in one process";

  private SpiceRows() {}

  static List<Row> rows(boolean briefly, Path directory) throws IOException, InterruptedException {
    return List.of(
        cables(briefly ? 3 : 250, briefly ? 1 : RUNS, directory), loops(briefly, directory));
  }

  private static Row cables(int count, int runs, Path directory)
      throws IOException, InterruptedException {
    List<Network> cables = new ArrayList<>();
    Random random = new Random(SEED);
    for (int i = 0; i < count; i++) {
      cables.add(PluggedCable.drawn(random));
    }
    StringBuilder text = new StringBuilder("plugged cables\n");
    for (int k = 0; k < count; k++) {
      write(cables.get(k), "c" + k + "n", text);
    }
    text.append(".op\n.end\n");
    double[] ours = new double[runs];
    double[] theirs = new double[runs];
    for (int run = 0; run < runs; run++) {
      Map<String, Double> spice = Ngspice.operatingPoint(directory, text.toString());
      theirs[run] = Ngspice.processorTime(directory).toNanos() / 1e3 / count;
      List<double[]> solved = new ArrayList<>();
      long begin = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
      for (Network cable : cables) {
        solved.add(cable.volts(PluggedCable.driven(0, 5)));
      }
      ours[run] =
          (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - begin) / 1e3 / count;
      compare(solved, spice);
    }
    return new Row(
        "a cable of 16 on its plug (33 nodes), all voltages; processor time",
        "µs",
        "the survey's network",
        Figure.of(ours),
        List.of(new Row.Peer(NGSPICE, Figure.of(theirs))));
  }

  private static void write(Network cable, String node, StringBuilder text) {
    int n = cable.nodes();
    for (int a = 0; a < n; a++) {
      for (int b = 0; b < a; b++) {
        resistor(node + a + "x" + b, node + a, node + b, cable.between(a, b), text);
      }
      resistor(node + a, node + a, "0", cable.between(a, a), text);
    }
    double[] amps = PluggedCable.driven(0, 5);
    for (int a = 0; a < n; a++) {
      if (amps[a] != 0) {
        text.append("I%s%d 0 %s%d %s%n".formatted(node, a, node, a, amps[a]));
      }
    }
  }

  private static void resistor(
      String name, String a, String b, double siemens, StringBuilder text) {
    if (siemens > 0) {
      text.append("R%s %s %s %s%n".formatted(name, a, b, 1 / siemens));
    }
  }

  /** To SPICE's own tolerance, a millionth of each and a microvolt. */
  private static void compare(List<double[]> solved, Map<String, Double> spice) {
    for (int k = 0; k < solved.size(); k++) {
      for (int node = 0; node < solved.get(k).length; node++) {
        double volts = solved.get(k)[node];
        double theirs = spice.getOrDefault("c" + k + "n" + node, Double.NaN);
        if (!(Math.abs(volts - theirs) <= 1e-3 * Math.abs(volts) + 1e-6)) {
          throw new IllegalStateException(
              "cable=" + k + " node=" + node + " ours=" + volts + " ngspice=" + theirs);
        }
      }
    }
  }

  private static Row loops(boolean briefly, Path directory)
      throws IOException, InterruptedException {
    int runs = briefly ? 1 : RUNS;
    double[] ours = new double[runs];
    double[] theirs = new double[runs];
    for (int run = 0; run < runs; run++) {
      LoopsBesideNgspice.Compared compared =
          LoopsBesideNgspice.compare(briefly ? 2 : 100, directory);
      ours[run] = compared.ourNanos() / 1e3 / compared.circuits();
      theirs[run] = compared.theirNanos() / 1e3 / compared.circuits();
    }
    return new Row(
        "a control loop of the landing check, all currents; processor time",
        "µs",
        "the landing check's circuits",
        Figure.of(ours),
        List.of(new Row.Peer(NGSPICE, Figure.of(theirs))));
  }
}
