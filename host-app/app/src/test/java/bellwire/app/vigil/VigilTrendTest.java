package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.ConductorTrend.Course;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.cable.Truth;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
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
    StoredVigil stored =
        VigilLoader.load(file, 1, StoredVigil.Part.ALL, Counting.EACH, share -> {});
    Truth truth = new SimulatedCopper(BenchFile.parse("trend.yaml", bench)).truth();
    for (ConductorTrend each : stored.trend().orElseThrow().conductors()) {
      assertThat(each.open()).isZero();
      boolean creeps = each.port() == 2;
      assertThat(each.course())
          .as("P%d", each.port() + 1)
          .isEqualTo(creeps ? Course.SLOPE : Course.STEADY);
      if (creeps) {
        assertThat(each.perHour().value()).isCloseTo(RAMP_OHMS_PER_HOUR, within(0.005));
      } else {
        double ohms =
            truth.wire(each.port()).ohms()
                + truth.nearContactOhms(each.port(), 0)
                + truth.farContactOhms(each.port(), 0);
        assertThat(each.mean().value()).isCloseTo(ohms, within(4 * each.mean().u() + 1e-3));
      }
    }
  }
}
