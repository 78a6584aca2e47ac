package bellwire.simbench.spice;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.Probe;
import bellwire.simbench.circuit.Solution;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Coils, capacitors, diodes and batteries on a cable against ngspice: at rest, at a tone, and
 * through a change of switches, with the kick of a coil whose current finds no way.
 */
class NgspiceAttachedTest {
  private static final int BENCHES = 12;
  private static final BoardDescription BOARD = BoardDescription.revisionA();
  private static final double KICK_SECONDS = 400e-6;

  @TempDir Path directory;

  @BeforeAll
  static void ngspice() {
    Ngspice.require();
  }

  /** A coil, a secondary and a capacitor on ports and places that the seed draws. */
  private static String attached(Random random) {
    String place = random.nextBoolean() ? "near" : random.nextBoolean() ? "far" : "0.4";
    return String.format(
        Locale.ROOT,
        "attached:%n"
            + "  - {coil: [P1, P2], ohm: %.2f, henry: %.3f, core: %.0f ohm, at: %s}%n"
            + "  - {secondary: [P2, P3], ohm: %.2f, henry: %.3f}%n"
            + "  - {capacitor: [P%d, P4], farad: %.1f nF, at: far}%n"
            + "  - {battery: [P4, M], volts: 0.3, ohm: %.1f}%n"
            + "surroundings: {hum: 5 mV 60 Hz}%n",
        10 + 190 * random.nextDouble(),
        0.05 + 0.95 * random.nextDouble(),
        1000 + 1e5 * random.nextDouble(),
        place,
        0.3 + 0.7 * random.nextDouble(),
        0.05 + 0.55 * random.nextDouble(),
        1 + random.nextInt(3),
        1 + 1000 * random.nextDouble(),
        1000 + 1e4 * random.nextDouble());
  }

  private static SimulatedCopper connected(String more, long seed) {
    SimulatedCopper copper = new SimulatedCopper(RandomBenches.of(seed, 5, more));
    copper.rearm(0);
    copper.control(true, false, 0);
    copper.heartbeat(0);
    return copper;
  }

  private static long word(int drive, int returned, boolean rest, String range) {
    long bits = 1L << BOARD.chainBit("excite") | 1L << BOARD.chainBit(range);
    bits |= 1L << BOARD.chainBit(drive, "drive") | 1L << BOARD.chainBit(returned, "return");
    for (int p = 0; p < 17 && rest; p++) {
      if (p != drive && p != returned) {
        bits |= 1L << BOARD.chainBit(p, "guard");
      }
    }
    return bits;
  }

  @Test
  void restAndTonesAgree() throws Exception {
    for (long seed = 1; seed <= BENCHES; seed++) {
      Random random = new Random(seed);
      SimulatedCopper copper = connected(attached(random), seed);
      copper.latchChain(word(0, 2, seed % 2 == 0, "range-low"), 5_000_000);
      Solution solution = copper.solution(5_000_000);
      Circuit circuit = copper.circuit(5_000_000);
      Ngspice.Plot rest =
          Ngspice.run(
              directory, SpiceNetlist.write("rest", circuit, true, new SpiceNetlist.AtRest()));
      Ngspice.Plot ac =
          Ngspice.run(
              directory, SpiceNetlist.write("tone", circuit, true, new SpiceNetlist.Tone(0)));
      for (int o = 0; o < 16; o++) {
        String node = "t" + (o + 1);
        close(seed, node, solution.restVolts(Probe.node(o)), rest.real(node)[0]);
        double[] tone = solution.toneVolts(Probe.node(o), 0);
        close(seed, node + " re", tone[0], ac.real(node)[0]);
        close(seed, node + " im", tone[1], ac.imaginary(node)[0]);
      }
    }
  }

  private static void close(long seed, String node, double ours, double spice) {
    assertThat(Math.abs(ours - spice))
        .as("seed=%d node=%s ours=%s spice=%s", seed, node, ours, spice)
        .isLessThanOrEqualTo(Math.max(1e-4 * Math.abs(spice), 1e-6));
  }

  /** Driven for 15 ms, then the switches move and each coil's current goes where it can. */
  @Test
  void kicksAgree() throws Exception {
    double worst = 0;
    double highest = 0;
    for (long seed = 1; seed <= BENCHES; seed++) {
      Random random = new Random(seed);
      SimulatedCopper copper = connected(attached(random), seed);
      String range = seed % 3 == 0 ? "range-mid" : "range-low";
      copper.latchChain(word(0, 2, true, range), 5_000_000);
      long now = 20_000_000;
      copper.heartbeat(now);
      boolean connected = copper.connected(now);
      copper.latchChain(word((int) (seed % 2), 3, seed % 4 < 2, range), now);
      assertThat(connected).as("seed=%d", seed).isTrue();
      Solution solution = copper.solution(now);
      int[] nodes = copper.stateNodes(now);
      double[] state = solution.state(now);
      Ngspice.Plot plot =
          Ngspice.run(
              directory,
              SpiceNetlist.write(
                  "kick",
                  copper.circuit(now),
                  true,
                  new SpiceNetlist.Transient(
                      now,
                      KICK_SECONDS / 4000,
                      KICK_SECONDS,
                      nodes,
                      Arrays.copyOf(state, nodes.length),
                      Arrays.copyOfRange(state, nodes.length, state.length))));
      double[] time = plot.real("time");
      for (int o = 0; o < 5; o++) {
        double[] spice = plot.real("t" + (o + 1));
        double swing = 0;
        for (double v : spice) {
          swing = Math.max(swing, Math.abs(v));
        }
        highest = Math.max(highest, swing);
        for (int part = 1; part <= 8; part++) {
          int at = time.length * part / 9;
          double ours = solution.volts(Probe.node(o), now + Math.round(time[at] * 1e9));
          double allowed = Math.max(5e-3 * swing, 1e-5);
          assertThat(Math.abs(ours - spice[at]))
              .as("seed=%d t%d at %s ours=%s spice=%s", seed, o + 1, time[at], ours, spice[at])
              .isLessThanOrEqualTo(allowed);
          worst = Math.max(worst, Math.abs(ours - spice[at]) / allowed);
        }
      }
    }
    System.out.println("worst share of 0.5 %=" + worst + ", highest kick, volts=" + highest);
    assertThat(highest).as("some coil's current finds no way").isGreaterThan(5);
  }

  /** A diode that begins to conduct as the driven conductor charges, on both sides of its knee. */
  @Test
  void diodesAgree() throws Exception {
    for (long seed = 1; seed <= BENCHES; seed++) {
      Random random = new Random(seed);
      double ohms = 5 + 50 * random.nextDouble();
      String more =
          String.format(
              Locale.ROOT,
              "attached:%n  - {diode: [%s], volts: %.3f, ohm: %.2f, at: %s}%n"
                  + "  - {capacitor: [P1, P2], farad: %.1f nF}%n",
              seed % 3 == 0 ? "P2, P1" : "P1, P2",
              0.5 + 0.2 * random.nextDouble(),
              ohms,
              seed % 2 == 0 ? "far" : "near",
              50 + 500 * random.nextDouble());
      SimulatedCopper copper = connected(more, seed);
      copper.latchChain(
          word(0, 1, true, "range-low") & ~(1L << BOARD.chainBit("excite")), 5_000_000);
      long now = 8_000_000;
      copper.latchChain(word(0, 1, true, "range-low"), now);
      int[] nodes = copper.stateNodes(now);
      double stop = 1e-3;
      Ngspice.Plot plot =
          Ngspice.run(
              directory,
              SpiceNetlist.write(
                  "diode",
                  copper.circuit(now),
                  true,
                  new SpiceNetlist.Transient(
                      now,
                      stop / 4000,
                      stop,
                      nodes,
                      copper.solution(now).state(now),
                      new double[0])));
      double[] time = plot.real("time");
      double[] spice = plot.real("t1");
      for (int part = 1; part <= 16; part++) {
        int at = (time.length - 1) * part / 16;
        long nanos = now + Math.round(time[at] * 1e9);
        double ours = copper.solution(nanos).volts(Probe.node(0), nanos);
        assertThat(Math.abs(ours - spice[at]))
            .as("seed=%d at %s ours=%s spice=%s", seed, time[at], ours, spice[at])
            .isLessThanOrEqualTo(5e-3);
      }
    }
  }
}
