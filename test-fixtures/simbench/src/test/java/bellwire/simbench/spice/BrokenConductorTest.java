package bellwire.simbench.spice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Charging a conductor of a bench with a break, computed by ngspice: capacitance follows the place
 * of the break, and what a fellow loses to the floating part. Theory (27).
 */
class BrokenConductorTest {
  private static final BoardDescription BOARD = BoardDescription.revisionA();
  private static final double METRES = 20;
  private static final double PER_METRE = 66e-12;
  private static final double TO_METAL_PER_METRE = 5e-12;
  private static final int CONDUCTORS = 5;

  /** Of the voltage reached, in the transient; of a capacitance it is twice that at one τ. */
  private static final double SPICE = 1e-3;

  @TempDir Path directory;

  @BeforeAll
  static void ngspice() {
    Ngspice.require();
  }

  @Test
  void capacitanceFollowsThePlace() throws Exception {
    double whole = METRES * (PER_METRE + TO_METAL_PER_METRE);
    double half = farads(0.5, 0);
    double quarter = farads(0.25, 0);
    assertThat(half - quarter).isCloseTo(0.25 * whole, within(4 * SPICE * whole));
  }

  @Test
  void aFellowLosesWhatTheFloatingPartTakes() throws Exception {
    double whole = METRES * (PER_METRE + TO_METAL_PER_METRE);
    double pair = PER_METRE / (CONDUCTORS - 1) * METRES;
    double late = farads(0.9, 1);
    double early = farads(0.1, 1);
    assertThat(late - early).isCloseTo(0.8 * pair * pair / whole, within(4 * SPICE * whole));
  }

  /** Capacitance of a port by the time constant of ngspice's transient. */
  private double farads(double at, int port) throws Exception {
    SimulatedCopper copper = new SimulatedCopper(BenchFile.parse("broken.yaml", yaml(at)));
    long excite = 1L << BOARD.chainBit("excite");
    long guarded = 0;
    for (int p = 0; p < 17; p++) {
      guarded |= 1L << BOARD.chainBit(p, "guard");
    }
    long now = 0;
    copper.rearm(now);
    copper.control(true, false, now);
    for (int beat = 0; beat < 4; beat++) {
      copper.heartbeat(now);
      now += 5_000_000;
    }
    copper.latchChain(guarded, now);
    now += 15_000_000;
    copper.heartbeat(now);
    copper.latchChain(
        guarded & ~(1L << BOARD.chainBit(port, "guard"))
            | 1L << BOARD.chainBit(port, "return")
            | 1L << BOARD.chainBit("check-high")
            | excite,
        now);
    assertThat(copper.excited(now)).isTrue();
    String node = "t" + (port + 1);
    double full =
        Ngspice.run(
                directory,
                SpiceNetlist.write("rest", copper.circuit(now), true, new SpiceNetlist.AtRest()))
            .real(node)[0];
    double stop = 1e-3;
    Ngspice.Plot plot =
        Ngspice.run(
            directory,
            SpiceNetlist.write(
                "charge",
                copper.circuit(now),
                true,
                new SpiceNetlist.Transient(
                    now,
                    stop / 2000,
                    stop,
                    copper.stateNodes(now),
                    copper.solution(now).state(now),
                    new double[0])));
    double[] time = plot.real("time");
    double[] volts = plot.real(node);
    int last = time.length - 1;
    double begin = volts[0];
    double tau = -time[last] / Math.log((full - volts[last]) / (full - begin));
    double sourceOhms = BOARD.nominal("check-high-ohms");
    return tau * BOARD.nominal("excitation-volts") / sourceOhms / full;
  }

  private static String yaml(double at) {
    StringBuilder lines = new StringBuilder("bellwire-bench: 1\nseed: 3\ncable:\n");
    lines.append(
        String.format(Locale.ROOT, "  gauge: 18 AWG%n  length: %.1f m%n  conductors:%n", METRES));
    for (int i = 1; i <= CONDUCTORS; i++) {
      lines.append(String.format("    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
    }
    lines.append(String.format(Locale.ROOT, "opens: [{conductor: P1, at: %.2f}]%n", at));
    lines.append("spread: {resistance: 0 %, capacitance: 0 %, contact: 10..10 mohm}\n");
    // What switches leak would add to the source's current.
    lines.append("surroundings: {mains: {volts: 0, hz: 60, capacitance: 0 pF}}\n");
    lines.append("board: {switch-leakage: 0 nA}\n");
    return lines.toString();
  }
}
