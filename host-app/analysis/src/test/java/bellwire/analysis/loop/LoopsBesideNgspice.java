package bellwire.analysis.loop;

import bellwire.analysis.circuit.Ngspice;
import bellwire.analysis.loop.FullCheck.Solving;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hipparchus.complex.Complex;

/**
 * The circuits that a full check solves on the way of every state to rest, solved by us and by
 * ngspice; the sums of all currents have to agree.
 */
public final class LoopsBesideNgspice {
  static final int AT_ONCE = 250;

  /**
   * Processor time of all circuits, ngspice's start and reading included.
   *
   * @param circuits compared, and equal
   */
  public record Compared(int circuits, double ourNanos, double theirNanos) {}

  private LoopsBesideNgspice() {}

  /**
   * @param installations of the full check of eight conductors, from the first
   * @param directory for ngspice's files
   * @throws IllegalStateException where the two do not agree
   */
  public static Compared compare(int installations, Path directory)
      throws IOException, InterruptedException {
    List<Solving> all = new FullCheck(8).solvings(installations);
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
        if (!(Math.abs(ours[compared] - amps) <= 1e-3 * amps + 1e-6)) {
          throw new IllegalStateException(
              "circuit=" + compared + " ours=" + ours[compared] + " ngspice=" + amps);
        }
        compared++;
      }
    }
    return new Compared(compared, nanos, theirs.toNanos());
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
