package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.ConductorTrend.Course;
import bellwire.analysis.vigil.Unwatched;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.cable.Truth;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A trend over the whole chain: chips, agent, link, job file, statement. */
class VigilTrendTest {
  private static final double RAMP_OHMS_PER_HOUR = 0.3;

  @TempDir private Path directory;

  @Test
  void oneJointThatCreepsIsFoundAndNoOther() throws Exception {
    String bench = SimulatedVigil.cable(5, "tie", 21) + "  - {wander: P3, at: 0, ramp: 300 mohm}\n";
    Path file = directory.resolve("trend.bellwire");
    SimulatedVigil.keep(Kind.TREND, bench, 0x1F, 0.5, file, (run, micros) -> {});
    Truth truth = truth(bench);
    for (ConductorTrend each : trend(file)) {
      assertThat(each.open()).isZero();
      boolean creeps = each.port() == 2;
      assertThat(each.course())
          .as("P%d", each.port() + 1)
          .isEqualTo(creeps ? Course.SLOPE : Course.STEADY);
      if (creeps) {
        assertThat(each.perHour().value()).isCloseTo(RAMP_OHMS_PER_HOUR, within(0.005));
      } else {
        right(each, truth);
      }
    }
  }

  /** The step in the middle of a round was taken for its neighbour's when it came late. */
  @Test
  void noReadingIsOpenForItsPlaceInTheRound() throws Exception {
    String bench = steady(6, "board: {clock-drift: 40 ppm, tick-jitter: 0.02 ms}\n");
    Path file = directory.resolve("late.bellwire");
    SimulatedVigil.keep(Kind.TREND, bench, 0x3F, 0.1, file, (run, micros) -> {});
    for (ConductorTrend each : trend(file)) {
      assertThat(each.readings()).isGreaterThan(200);
      assertThat(each.open()).as("P%d", each.port() + 1).isZero();
      right(each, truth(bench));
    }
  }

  /** P5 was held at common, and took most of the current that its neighbours were read by. */
  @Test
  void oneThatIsTiedAndNotAskedForTakesNoCurrent() throws Exception {
    String bench = steady(5, "");
    Path file = directory.resolve("part.bellwire");
    SimulatedVigil.keep(Kind.TREND, bench, 0x0F, 0.05, file, (run, micros) -> {});
    List<ConductorTrend> all = trend(file);
    assertThat(all).extracting(ConductorTrend::port).containsExactly(0, 1, 2, 3);
    for (ConductorTrend each : all) {
      assertThat(each.open()).isZero();
      right(each, truth(bench));
    }
  }

  /** The tie shorts it, so the interlock sees nothing; it was said to be open. */
  @Test
  void aVoltageWithinTheWindowIsToldAndNothingIsOpen() throws Exception {
    String foreign =
        ", foreign: [{between: [P1, P4], volts: 1, hz: 0, ohm: 0.5, from: 60 s, until: 80 s}]}";
    String bench = steady(4, "").replace("60 Hz}", "60 Hz" + foreign);
    Path file = directory.resolve("fed.bellwire");
    SimulatedVigil.keep(Kind.TREND, bench, 0x0F, 0.05, file, (run, micros) -> {});
    StoredVigil vigil = load(file);
    for (ConductorTrend each : vigil.trend().orElseThrow().conductors()) {
      assertThat(each.open()).as("P%d", each.port() + 1).isZero();
      right(each, truth(bench));
    }
    long told = 0;
    for (Unwatched each : vigil.gaps()) {
      assertThat(each.reason()).contains("a voltage from outside");
      assertThat(each.fromMicros()).isGreaterThan(55_000_000);
      assertThat(each.toMicros()).isLessThan(85_000_000);
      told += each.toMicros() - each.fromMicros();
    }
    assertThat(told).isBetween(18_000_000L, 24_000_000L);
    assertThat(drawn(file)).isEqualTo(vigil.gaps());
    assertThat(vigil.found()).isTrue();
    assertThat(VigilText.statement(vigil, ZoneOffset.UTC).parts())
        .flatExtracting(VigilStatement.Part::lines)
        .anyMatch(line -> line.finding() && line.words().contains("voltage from outside"));
  }

  private static List<Unwatched> drawn(Path file) throws Exception {
    try (VigilCourse course = new VigilCourse(file, 1)) {
      course.refresh(share -> {}, () -> false);
      return Objects.requireNonNull(course.picture(0, course.lastMicros(), 1000)).gaps();
    }
  }

  private static String steady(int conductors, String more) {
    return SimulatedVigil.cable(conductors, "tie", 21).replace("intermittent:\n", "") + more;
  }

  private static Truth truth(String bench) throws Exception {
    return new SimulatedCopper(BenchFile.parse("trend.yaml", bench)).truth();
  }

  private static List<ConductorTrend> trend(Path file) throws Exception {
    return load(file).trend().orElseThrow().conductors();
  }

  private static StoredVigil load(Path file) throws Exception {
    return VigilLoader.load(file, 1, StoredVigil.Part.ALL, Counting.EACH, share -> {});
  }

  private static void right(ConductorTrend said, Truth truth) {
    double ohms =
        truth.wire(said.port()).ohms()
            + truth.nearContactOhms(said.port(), 0)
            + truth.farContactOhms(said.port(), 0);
    assertThat(said.mean().value()).isCloseTo(ohms, within(4 * said.mean().u() + 1e-3));
  }
}
