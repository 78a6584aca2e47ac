package bellwire.simbench.spice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.cable.WettedCopper;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * How long a conductor must be open for its wetted port to cross the threshold: ngspice on the
 * whole circuit, every conductor, clamp and arm, against the event path's single exponential.
 */
class NgspiceOpeningTest {
  private static final BoardDescription BOARD = BoardDescription.revisionA();
  private static final long MILLI = 1_000_000;
  private static final long OPENS = 1_000 * MILLI;

  /**
   * The single exponential leaves out what the fellow conductors give way: through a plug's arms
   * (700 ohm at most, against 10 kohm) some tenths of a percent, 1 % allowed; ngspice's step of
   * 1/2000 of the stretch, 50 ns, is looked between. One nanosecond is this bench's own.
   */
  private static final double RELATIVE = 0.01;

  @TempDir Path directory;

  @BeforeAll
  static void ngspice() {
    Ngspice.require();
  }

  @ParameterizedTest
  @CsvSource({
    "25, tie, 0, 1",
    "25, tie, 1, 1",
    "60, tie, 0.98, 1",
    "60, tie, 0.5, 2",
    "40, coded, 0.7, 1",
    "40, coded, 0.1, 2"
  })
  void theShortestOpeningAgrees(double metres, String plug, double at, int seed) throws Exception {
    Bench bench = BenchFile.parse("opening.yaml", yaml(metres, plug, at, seed));
    double theirs = theirs(bench, new SimulatedCopper(bench));
    double ours = ours(bench);
    System.out.printf(
        Locale.ROOT,
        "%.0f m, %s, at %.2f: ngspice %.3f us, bench %.3f us%n",
        metres,
        plug,
        at,
        theirs * 1e6,
        ours * 1e6);
    assertThat(ours).isCloseTo(theirs, within(RELATIVE * theirs + 2e-9));
  }

  private double theirs(Bench bench, SimulatedCopper copper) throws Exception {
    WettedCopper events = new WettedCopper(bench, bench.seed(), copper);
    wet(copper, events);
    Ngspice.Plot plot =
        Ngspice.run(
            directory,
            SpiceNetlist.write(
                "opening",
                copper.circuit(OPENS),
                false,
                new SpiceNetlist.Transient(
                    OPENS,
                    50e-9,
                    100e-6,
                    copper.stateNodes(OPENS),
                    copper.solution(OPENS).state(OPENS),
                    new double[0])));
    double[] time = plot.real("time");
    double[] volts = plot.real("n3");
    double threshold = events.thresholdVolts(2);
    for (int i = 1; i < time.length; i++) {
      if (volts[i] > threshold) {
        double share = (threshold - volts[i - 1]) / (volts[i] - volts[i - 1]);
        return time[i - 1] + share * (time[i] - time[i - 1]);
      }
    }
    throw new AssertionError("never above " + threshold);
  }

  /** The first capture that finds the port high, by halving. */
  private static double ours(Bench bench) {
    long low = 0;
    long high = 100_000;
    while (high - low > 1) {
      long middle = (low + high) / 2;
      SimulatedCopper copper = new SimulatedCopper(bench);
      WettedCopper events = new WettedCopper(bench, bench.seed(), copper);
      wet(copper, events);
      events.capture(OPENS + middle);
      boolean above = (events.word() & 4) != 0;
      low = above ? low : middle;
      high = above ? middle : high;
    }
    return high * 1e-9;
  }

  /** Relays closed, P1 and M on the guard bus, the wetting on, up to the opening. */
  private static void wet(SimulatedCopper copper, WettedCopper events) {
    long guard = 1L << BOARD.chainBit(0, "guard") | 1L << BOARD.chainBit(16, "guard");
    copper.rearm(0);
    copper.control(true, false, 0);
    copper.heartbeat(0);
    copper.latchChain(guard, 10 * MILLI);
    events.latchChain(guard, 10 * MILLI);
    copper.wetting(true, 20 * MILLI);
    events.events(true, false, 20 * MILLI);
    for (long t = 40 * MILLI; t < OPENS; t += 40 * MILLI) {
      copper.heartbeat(t);
    }
    assertThat(copper.wetted(OPENS)).isTrue();
    assertThat(copper.connected(OPENS)).isTrue();
  }

  private static String yaml(double metres, String plug, double at, int seed) {
    StringBuilder lines = new StringBuilder("bellwire-bench: 1\nseed: " + seed + "\ncable:\n");
    lines.append(
        String.format(Locale.ROOT, "  gauge: 18 AWG%n  length: %.1f m%n  conductors:%n", metres));
    for (int i = 1; i <= 8; i++) {
      lines.append(String.format("    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
    }
    lines.append("far-end: [{from: 0 s, plug: " + plug + "}]\n");
    lines.append("surroundings: {mains: {volts: 0, hz: 60, capacitance: 0 pF}}\n");
    lines.append(
        String.format(
            Locale.ROOT,
            "intermittent: [{opening: P3, at: %.2f, cycle: {period: 1000 s, phase: 1 s}, lasting: 2 s}]%n",
            at));
    return lines.toString();
  }
}
