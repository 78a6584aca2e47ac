package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.app.survey.RandomCable.Fault;
import bellwire.simbench.cable.Truth;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/**
 * Voltages that no window sees, 0.02 to 1 V between two ports, from the start or later: found by
 * the looks between the phases, or without harm to what is called sound.
 */
class SmallVoltageTest {
  private static final int DRAWS = Integer.getInteger("bellwire.draws", 200) / 4;

  /** Twice the uncertainty's limit for a conductor of the issue, and the contacts. */
  private static final double HARM_OHMS = 0.2;

  private static final class Row {
    int draws;
    int named;
    int stopped;
    int results;
  }

  @Test
  void whatNoWindowSeesIsFoundBetweenThePhases() throws Exception {
    Map<String, Row> rows = new TreeMap<>();
    List<String> wrong = new ArrayList<>();
    for (int seed = 1; seed <= DRAWS; seed++) {
      Random random = new Random(seed * 0x9E3779B97F4A7C15L);
      RandomCable cable = new RandomCable(9000 + seed, Fault.NONE, 3 + random.nextInt(6));
      double volts = 0.02 * Math.pow(50, random.nextDouble());
      boolean late = random.nextInt(3) > 0;
      ForeignBench drawn =
          new ForeignBench(
              cable,
              cable.ports.get(0),
              random.nextInt(4) == 0 ? Ports.METAL : cable.ports.get(1),
              volts,
              random.nextBoolean() ? 0 : 60,
              2,
              late ? 2_000_000 + (long) (random.nextDouble() * 40e6) : 0);
      WatchedBench bench = new WatchedBench(drawn.yaml(), drawn.fromMicros(), WatchedBench.NEVER);
      Truth truth = bench.device.copper().truth();
      String band = volts < 0.1 ? "1 below 0.1 V" : volts < 0.3 ? "2 0.1 to 0.3 V" : "3 0.3 to 1 V";
      Row row =
          rows.computeIfAbsent(band + (late ? ", later" : ", from the start"), r -> new Row());
      row.draws++;
      try (var instrument = SimulatedSurvey.instrument(bench)) {
        SurveyOutcome outcome =
            new SurveyRun(
                    instrument,
                    SimulatedSurvey.BOARD,
                    SimulatedSurvey.options(),
                    SurveyListener.silent())
                .run();
        SurveyResult result = outcome.result();
        Foreign said = outcome.foreign();
        row.stopped += result == null ? 1 : 0;
        row.named +=
            said != null && Set.of(said.a(), said.b()).equals(drawn.ports()) && said.driven()
                ? 1
                : 0;
        double there = Math.abs(bench.trueVolts(drawn.a(), drawn.b()));
        if (result != null) {
          row.results++;
          check(result, truth, drawn, wrong);
          if (there > 0.3) {
            wrong.add("there=" + there + " and a result: " + drawn);
          }
        }
      } catch (InstrumentTrouble noVerdict) {
        row.stopped++; // the voltage makes the far end look restless: no result is a right answer
      }
    }
    System.out.printf("%-30s %6s %8s %6s %8s%n", "voltage", "draws", "stopped", "named", "results");
    rows.forEach(
        (name, r) ->
            System.out.printf(
                Locale.ROOT,
                "%-30s %6d %8d %6d %8d%n",
                name,
                r.draws,
                r.stopped,
                r.named,
                r.results));
    wrong.forEach(w -> System.out.println("WRONG " + w));
    assertThat(wrong).isEmpty();
  }

  private static void check(
      SurveyResult result, Truth truth, ForeignBench drawn, List<String> wrong) {
    for (SurveyResult.ConductorResult c : result.conductors()) {
      if (c.standing() != Standing.SOUND) {
        continue;
      }
      Truth.Wire wire =
          truth.wires().stream().filter(w -> w.port() == c.port()).findFirst().orElse(null);
      if (wire == null || (c.position() != 0 && c.position() != wire.far())) {
        wrong.add("sound at a wrong place: " + c + " " + wire + ": " + drawn);
      } else if (c.ohms() != null && Math.abs(c.ohms().value() - wire.ohms()) > HARM_OHMS) {
        wrong.add("sound with a wrong resistance: " + c + " " + wire + ": " + drawn);
      }
    }
  }
}
