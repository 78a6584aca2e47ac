package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.Ports;
import bellwire.app.survey.RandomCable.Fault;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * A mains cable beside the control cable: through 22 pF it is told and called induced, and nothing
 * is connected; what every cable in a wall gets never stops a survey.
 */
class InducedVoltageTest {
  private static final int DRAWS = Integer.getInteger("bellwire.draws", 100);
  private static final String CLIPPED = "metal: {clipped: true, to: earth}\n";

  @Test
  void inducedIsSaidAndNothingIsConnected() throws Exception {
    List<String> wrong = new ArrayList<>();
    int onIt = 0;
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    int draws = DRAWS / 2;
    for (int seed = 1; seed <= draws; seed++) {
      Random random = new Random(seed * 0x9E3779B97F4A7C15L);
      RandomCable cable = new RandomCable(7000 + seed, Fault.NONE);
      boolean european = random.nextBoolean();
      int port = cable.ports.get(random.nextInt(cable.conductors));
      String induced =
          String.format(
              Locale.ROOT,
              "induced: [{on: %s, volts: %d, hz: %d, capacitance: 22 pF}]",
              Ports.name(port),
              european ? 230 : 120,
              european ? 50 : 60);
      String yaml = ForeignBench.with(ForeignBench.healthy(cable), induced) + CLIPPED;
      WatchedBench bench = new WatchedBench(length(yaml, random), 0, WatchedBench.NEVER);
      SurveyOutcome outcome = survey(bench, SimulatedSurvey.options());
      Foreign said = outcome.foreign();
      if (outcome.result() != null
          || said == null
          || said.driven()
          || !said.alternating()
          || !said.words().contains("induced")
          || bench.cameBack > 0) {
        wrong.add(
            (said == null ? "nothing, result=" + (outcome.result() != null) : said.words())
                + ": "
                + induced
                + " on "
                + cable);
        continue;
      }
      onIt += said.a() == port || said.b() == port || said.alike().contains(port) ? 1 : 0;
      least = Math.min(least, said.volts());
      most = Math.max(most, said.volts());
    }
    System.out.printf(
        Locale.ROOT,
        "induced: draws=%d not told=%d naming the conductor=%d volts=%.2f..%.2f%n",
        draws,
        wrong.size(),
        onIt,
        least,
        most);
    wrong.forEach(w -> System.out.println("WRONG " + w));
    assertThat(wrong).isEmpty();
  }

  @Test
  void whatEveryCableInAWallGetsStopsNoSurvey() throws Exception {
    int draws = DRAWS / 2;
    SurveyOptions openOnly = SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 0);
    List<String> wrong = new ArrayList<>();
    for (int seed = 1; seed <= draws; seed++) {
      Random random = new Random(seed * 0x9E3779B97F4A7C15L);
      RandomCable cable = new RandomCable(8000 + seed, Fault.NONE);
      String yaml = ForeignBench.healthy(cable) + CLIPPED;
      if (random.nextBoolean()) {
        // A whole cable gets 6 pF at the most: docs/bench-files.md.
        double picofarads = Math.min(1, 6.0 / cable.conductors);
        yaml =
            ForeignBench.with(
                yaml,
                String.format(
                    Locale.ROOT, "mains: {volts: 230, hz: 50, capacitance: %.3f pF}", picofarads));
      }
      SurveyOutcome outcome = survey(new WatchedBench(yaml, 0, WatchedBench.NEVER), openOnly);
      if (outcome.stoppedByVoltage()) {
        wrong.add(outcome.foreign() + " " + outcome.trippedFlags() + ": " + cable);
      }
    }
    System.out.printf("healthy: draws=%d false alarms=%d%n", draws, wrong.size());
    wrong.forEach(w -> System.out.println("WRONG " + w));
    assertThat(wrong).isEmpty();
  }

  private static String length(String yaml, Random random) {
    String metres = String.format(Locale.ROOT, "length: %.1f m", 5 + 55 * random.nextDouble());
    return yaml.replaceFirst("length: [0-9.]+ m", metres);
  }

  private static SurveyOutcome survey(WatchedBench bench, SurveyOptions options) throws Exception {
    try (var instrument = SimulatedSurvey.instrument(bench)) {
      return new SurveyRun(instrument, SimulatedSurvey.BOARD, options, SurveyListener.silent())
          .run();
    }
  }
}
