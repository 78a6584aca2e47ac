package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import bellwire.analysis.survey.Foreign;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A coil's kick trips the interlock with nothing foreign on the cable; a source does so, too. */
class CoilKickTest {
  private static final String KICKING =
      """
      bellwire-bench: 1
      seed: %d
      cable:
        gauge: 18 AWG
        length: 30 m
        conductors:
          - {port: P1, colour: c1, far: 1}
          - {port: P2, colour: c2, far: 2}
          - {port: P3, colour: c3, far: 3}
          - {port: P4, colour: c4, far: 4}
      attached: [{coil: [P1, P2], ohm: 10, henry: %s, at: far}]
      surroundings: {hum: 20 mV 60 Hz%s}
      """;

  private final List<String> notes = new ArrayList<>();

  /** When the look for voltage after the kick was over. */
  private long lookedMicros;

  private SurveyOutcome survey(String more) throws Exception {
    return survey(5, 0.5, more);
  }

  private SurveyOutcome survey(int seed, double henry, String more) throws Exception {
    notes.clear();
    String bench = String.format(Locale.ROOT, KICKING, seed, Double.toString(henry), more);
    SimulatedDevice device = new SimulatedDevice(BenchFile.parse("kick.yaml", bench));
    SurveyListener listener =
        new SurveyListener() {
          @Override
          public void phase(String title) {
            if (title.equals("coils")) {
              lookedMicros = device.micros();
            }
          }

          @Override
          public void progress(double share) {}

          @Override
          public void waiting(String forWhat, String seen, long secondsLeft) {}

          @Override
          public void note(String words) {
            notes.add(words);
          }
        };
    try (var instrument = SimulatedSurvey.instrument(device)) {
      return new SurveyRun(
              instrument, SimulatedSurvey.BOARD, SimulatedSurvey.options(Set.of(), 1), listener)
          .run();
    }
  }

  /** It leaves the window again and again, each time too briefly to latch. */
  @Test
  void aCoilThatRingsIsNoTrouble() throws Exception {
    for (int seed = 1; seed <= 8; seed++) {
      int drawn = seed;
      assertThatCode(() -> survey(drawn, 0.25, "")).as("seed=" + seed).doesNotThrowAnyException();
    }
  }

  @Test
  void aSourceThatAppearsAtTheMomentOfACoilsKickEndsTheSurvey() throws Exception {
    SurveyOutcome alone = survey("");
    assertThat(notes).anyMatch(n -> n.contains("the kick of a coil at P1 and P2"));
    assertThat(alone.stoppedByVoltage()).isFalse();
    long looked = lookedMicros;
    for (String ports : List.of("P1, P2", "P3, P4", "P1, P3")) {
      for (int before = 0; before <= 1_000_000; before += 250_000) {
        double from = (looked - before) * 1e-6;
        SurveyOutcome outcome =
            survey(
                String.format(
                    Locale.ROOT,
                    ", foreign: [{between: [%s], volts: 24, hz: 60, ohm: 2, from: %.6f s}]",
                    ports,
                    from));
        String at = ports + " from " + from + " s: " + notes;
        assertThat(outcome.stoppedByVoltage()).as(at).isTrue();
        assertThat(outcome.result()).as(at).isNull();
        assertThat(notes).as(at).noneMatch(n -> n.contains("Measured again"));
        Foreign foreign = Objects.requireNonNull(outcome.foreign(), at);
        assertThat(foreign.driven()).as(at).isTrue();
        assertThat(foreign.volts()).as(at).isBetween(20.0, 28.0);
      }
    }
  }
}
