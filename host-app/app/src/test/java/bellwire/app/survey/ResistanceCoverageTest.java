package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.ConductorResistance;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndWatch;
import bellwire.analysis.survey.Leak;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Phase;
import bellwire.analysis.survey.Plug;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.StarPhase;
import bellwire.analysis.survey.StarResult;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.link.AgentInstrument;
import bellwire.board.CodedPlug;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.cable.Truth;
import bellwire.simbench.file.BenchFile;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Fresh board, plug and seating in every draw: how often the conductor's true resistance lies
 * within 2 u, against the coverage that the same budget has by propagation of distributions (JCGM
 * 101:2008, clause 7).
 */
class ResistanceCoverageTest {
  private static final int DRAWS = Integer.getInteger("bellwire.draws", 1000);
  private static final Criteria CRITERIA = Criteria.standard();
  private static final Plug PLUG = BoardModels.plug(CodedPlug.nominal());

  private static final class Tally {
    int inside;
    double expected;
    double mostBesideContacts;
    double mostU;
    double sumSquares;
  }

  @Test
  void tiePlug() throws Exception {
    Tally tally = new Tally();
    for (int seed = 1; seed <= DRAWS; seed++) {
      draw(seed, "tie", tally);
    }
    report("tie plug", tally);
    assertThat(tally.mostBesideContacts).isLessThanOrEqualTo(0.005);
  }

  @Test
  void codedPlug() throws Exception {
    Tally tally = new Tally();
    for (int seed = 1; seed <= DRAWS; seed++) {
      draw(seed, "coded", tally);
    }
    report("coded plug", tally);
    assertThat(tally.mostU).isLessThanOrEqualTo(0.150);
  }

  private static void report(String name, Tally tally) {
    double expected = tally.expected / DRAWS;
    double seen = (double) tally.inside / DRAWS;
    double bound = 3 * Math.sqrt(expected * (1 - expected) / DRAWS);
    System.out.printf(
        Locale.ROOT,
        "%-10s draws %d  inside 2 u: %.4f  JCGM 101: %.4f +- %.4f (3 sigma)  rms error/u %.3f  largest u %.1f mohm, beside the contacts %.3f mohm%n",
        name,
        DRAWS,
        seen,
        expected,
        bound,
        Math.sqrt(tally.sumSquares / DRAWS),
        tally.mostU * 1e3,
        tally.mostBesideContacts * 1e3);
    assertThat(seen).isBetween(expected - bound, expected + bound);
  }

  private static void draw(int seed, String plug, Tally tally) throws Exception {
    Random random = new Random(seed * 104_729L + plug.hashCode());
    SimulatedDevice device =
        new SimulatedDevice(BenchFile.parse("drawn.yaml", yaml(seed, plug, random)));
    Truth truth = device.copper().truth();
    try (AgentInstrument instrument = SimulatedSurvey.instrument(device)) {
      instrument.open();
      assertThat(instrument.arm()).isEmpty();
      OpenResult open = sound();
      FarEndWatch watch = new FarEndWatch(SimulatedSurvey.BOARD, open, 0);
      FarEndWatch.Sight sight =
          watch.observe(instrument.measure(watch.round(), share -> {}).readings(), 0);
      StarPhase phase =
          new StarPhase(SimulatedSurvey.BOARD, sight.connected(), open, watch.lastOhms());
      measure(instrument, phase);
      StarResult star = StarResult.of(SimulatedSurvey.BOARD, open, sight.connected(), phase);
      int port = 0;
      Quantity arm = Objects.requireNonNull(star.arms().get(port));
      Budget reading = Objects.requireNonNull(star.budgets().get(port));
      int position = truth.wire(port).far();
      Budget budget =
          plug.equals("tie")
              ? ConductorResistance.budgetWithTie(reading, CRITERIA)
              : ConductorResistance.budgetWithCoded(reading, position, PLUG, CRITERIA);
      Quantity ohms =
          plug.equals("tie")
              ? ConductorResistance.withTie(arm, CRITERIA)
              : ConductorResistance.withCoded(arm, new Place(position, 1), PLUG, CRITERIA);
      double error = ohms.value() - truth.wire(port).ohms();
      tally.inside += Math.abs(error) <= 2 * ohms.u() ? 1 : 0;
      tally.expected += budget.coverage(2, 4000, seed);
      tally.mostBesideContacts = Math.max(tally.mostBesideContacts, arm.u());
      tally.mostU = Math.max(tally.mostU, ohms.u());
      tally.sumSquares += error * error / ohms.u() / ohms.u();
    }
  }

  private static void measure(AgentInstrument instrument, Phase phase) throws Exception {
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      phase.accept(instrument.measure(probes, share -> {}).readings());
    }
  }

  /** Three conductors that touch nothing: what an open phase would have found. */
  private static OpenResult sound() {
    List<Integer> ports = List.of(0, 1, 2, Ports.METAL);
    double[] rest = new double[Ports.COUNT];
    Arrays.fill(rest, 1e9);
    Leak[][] leaks = new Leak[4][4];
    for (Leak[] row : leaks) {
      Arrays.fill(row, new Leak(0, 1e-11));
    }
    return new OpenResult(
        ports,
        Collections.nCopies(4, null),
        new Quantity(0, 0, "F"),
        rest,
        ports.stream().map(List::of).toList(),
        new Quantity[Ports.COUNT][Ports.COUNT],
        leaks,
        new Network(Ports.COUNT),
        1);
  }

  private static String yaml(int seed, String plug, Random random) {
    int first = 1 + random.nextInt(14);
    return String.format(
        Locale.ROOT,
        """
        bellwire-bench: 1
        seed: %d
        cable:
          gauge: %d AWG
          length: %.2f m
          temperature: %.1f C
          conductors:
            - {port: P1, colour: a, far: %d}
            - {port: P2, colour: b, far: %d}
            - {port: P3, colour: c, far: %d}
        far-end: [{from: 0 s, plug: %s}]
        plug: {number: 1, tolerance: 0.01 %%, temperature: %.2f C}
        surroundings: {ambient: 22 C, hum: 5 mV 60 Hz}
        board: {noise: 1.0}
        """,
        seed,
        14 + 2 * random.nextInt(6),
        2 + 58 * random.nextDouble(),
        5 + 35 * random.nextDouble(),
        first,
        first + 1,
        first + 2,
        plug,
        20 + 15 * (2 * random.nextDouble() - 1));
  }
}
