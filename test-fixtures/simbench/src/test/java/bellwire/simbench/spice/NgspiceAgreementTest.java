package bellwire.simbench.spice;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.Probe;
import bellwire.simbench.circuit.Solution;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The solver against ngspice, an independent program, on fifty random benches. */
class NgspiceAgreementTest {
  private static final int BENCHES = 50;
  private static final int RETURN = 18;
  private static final String[] OBSERVED = new String[19];

  static {
    for (int p = 0; p < 16; p++) {
      OBSERVED[p] = "t" + (p + 1);
    }
    OBSERVED[16] = "tm";
    OBSERVED[17] = "drive";
    OBSERVED[RETURN] = "return";
  }

  @TempDir Path directory;

  @BeforeAll
  static void ngspice() {
    Ngspice.require();
  }

  @Test
  void restVoltagesAndPhasorsAgree() throws Exception {
    double worst = 0;
    for (long seed = 1; seed <= BENCHES; seed++) {
      Bench bench = new Bench(seed);
      Solution solution = bench.copper.solution(bench.now);
      Circuit circuit = bench.copper.circuit(bench.now);
      Ngspice.Plot rest =
          Ngspice.run(
              directory, SpiceNetlist.write("rest", circuit, true, new SpiceNetlist.AtRest()));
      for (int o = 0; o < OBSERVED.length; o++) {
        double spice = rest.real(OBSERVED[o])[0];
        double ours = solution.restVolts(Probe.node(o));
        worst = Math.max(worst, check(seed, OBSERVED[o], ours, spice, bench.stage));
      }
      for (int tone = 0; tone < circuit.omegas().length; tone++) {
        Ngspice.Plot ac =
            Ngspice.run(
                directory, SpiceNetlist.write("tone", circuit, true, new SpiceNetlist.Tone(tone)));
        for (int o = 0; o < OBSERVED.length; o++) {
          double[] ours = solution.toneVolts(Probe.node(o), tone);
          check(seed, OBSERVED[o] + " re", ours[0], ac.real(OBSERVED[o])[0], bench.stage);
          check(seed, OBSERVED[o] + " im", ours[1], ac.imaginary(OBSERVED[o])[0], bench.stage);
        }
      }
    }
    System.out.println("worst share of 0.01 % or 1 uV=" + worst);
  }

  /** 0.01 % or 1 µV; of the return bus under the stage, 1 µV at the stage's output. */
  private static double check(long seed, String node, double ours, double spice, boolean stage) {
    double floor = stage && node.startsWith("return") ? 1e-12 : 1e-6;
    double allowed = Math.max(1e-4 * Math.abs(spice), floor);
    assertThat(Math.abs(ours - spice))
        .as("seed=%d node=%s ours=%s spice=%s", seed, node, ours, spice)
        .isLessThanOrEqualTo(allowed);
    return Math.abs(ours - spice) / allowed;
  }

  @Test
  void chargingTransientsAgree() throws Exception {
    double worst = 0;
    for (long seed = 1; seed <= BENCHES; seed++) {
      Bench bench = new Bench(seed);
      Solution solution = bench.copper.solution(bench.now);
      double stop = bench.transientSeconds(solution);
      Ngspice.Plot plot =
          Ngspice.run(
              directory,
              SpiceNetlist.write(
                  "step",
                  bench.copper.circuit(bench.now),
                  true,
                  new SpiceNetlist.Transient(
                      bench.now,
                      stop / 1000,
                      stop,
                      bench.copper.stateNodes(bench.now),
                      solution.state(bench.now),
                      new double[0])));
      double[] time = plot.real("time");
      for (int o = 0; o < OBSERVED.length; o++) {
        double[] spice = plot.real(OBSERVED[o]);
        double swing = 0;
        for (double v : spice) {
          swing = Math.max(swing, Math.abs(v - spice[0]));
        }
        for (int part = 1; part <= 8; part++) {
          int at = nearest(time, stop * part / 8);
          double ours = solution.volts(Probe.node(o), bench.now + Math.round(time[at] * 1e9));
          double floor = bench.stage && o == RETURN ? 1e-9 : 1e-6;
          double allowed = Math.max(5e-3 * Math.max(Math.abs(spice[at]), swing), floor);
          assertThat(Math.abs(ours - spice[at]))
              .as(
                  "seed=%d node=%s t=%s ours=%s spice=%s",
                  seed, OBSERVED[o], time[at], ours, spice[at])
              .isLessThanOrEqualTo(allowed);
          worst = Math.max(worst, Math.abs(ours - spice[at]) / allowed);
        }
      }
    }
    System.out.println("worst share of 0.5 %=" + worst);
  }

  private static int nearest(double[] time, double seconds) {
    int best = 0;
    for (int i = 0; i < time.length; i++) {
      if (Math.abs(time[i] - seconds) < Math.abs(time[best] - seconds)) {
        best = i;
      }
    }
    return best;
  }

  /** A random bench, connected, in a random switch state with one port driven. */
  private static final class Bench {
    private static final BoardDescription BOARD = BoardDescription.revisionA();
    private static final String[] RANGES = {"range-low", "range-mid", "range-high"};
    final SimulatedCopper copper;
    final long excite = 1L << BOARD.chainBit("excite");
    final long word;
    final boolean stage;
    final int driven;
    long now;

    Bench(long seed) {
      Random random = new Random(~seed);
      copper = new SimulatedCopper(RandomBenches.draw(seed));
      int range = random.nextInt(3);
      stage = range > 0;
      driven = random.nextInt(2);
      long bits =
          excite | 1L << BOARD.chainBit(RANGES[range]) | 1L << BOARD.chainBit(driven, "drive");
      for (int p = 0; p < 17; p++) {
        int choice = random.nextInt(3);
        if (p != driven && choice > 0) {
          bits |= 1L << BOARD.chainBit(p, choice == 1 ? "return" : "guard");
        }
      }
      word = bits;
      // Under each of the far ends in turn.
      now = (seed % 3) * 21_000_000_000L;
      copper.rearm(now);
      copper.control(true, false, now);
      for (int beat = 0; beat < 4; beat++) {
        copper.heartbeat(now);
        now += 5_000_000;
      }
      // First without the excitation; the step is its coming on.
      copper.latchChain(word & ~excite, now);
      now += 15_000_000;
      copper.heartbeat(now);
      copper.latchChain(word, now);
      assertThat(copper.excited(now)).as("seed=%d flags=%x", seed, copper.tripFlags(now)).isTrue();
    }

    /** Until the driven port has come to within 1 % of where it goes, at least 10 µs. */
    double transientSeconds(Solution solution) {
      Probe probe = Probe.node(driven);
      double change = solution.restVolts(probe) - solution.volts(probe, now);
      long nanos = 10_000;
      while (nanos < 20_000_000
          && Math.abs(solution.restVolts(probe) - solution.volts(probe, now + nanos))
              > 0.01 * Math.abs(change)) {
        nanos = nanos * 5 / 4;
      }
      return nanos * 1e-9;
    }
  }
}
