package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.vigil.ConductorTrend;
import bellwire.app.bench.LastingLine;
import bellwire.app.bench.WrappedLine;
import bellwire.app.job.JobFile;
import bellwire.app.link.Transport;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.chip.FaultyLine.Fault;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What happens after something has gone wrong once. */
class VigilAfterTroubleTest {
  private static final long SECOND = 1_000_000;

  @TempDir private Path directory;
  private SimulatedDevice device;
  private Transport line;
  private long setBackMicros;

  @BeforeEach
  void board() throws Exception {
    String bench =
        SimulatedVigil.cable(5, "tie", 1).replace("intermittent:\n", ""); // nothing of its own
    device = new SimulatedDevice(BenchFile.parse("trouble.yaml", bench));
    line = new LastingLine(device);
  }

  private VigilRun begin(JobFile job, long number, long seconds) throws Exception {
    return VigilRun.begin(
        job,
        SimulatedVigil.order(number, seconds * SECOND),
        SimulatedVigil.means(line, () -> 4000 * SECOND + line.nowMicros() - setBackMicros));
  }

  private static void on(VigilRun run, long seconds) throws Exception {
    for (int i = 0; i < seconds; i++) {
      assertThat(run.step(SECOND)).isTrue();
    }
  }

  /** Set back by an hour, it once made the vigil begin anew after a hold-up: soak seed 14. */
  @Test
  void aWallClockThatIsSetChangesNoLength() throws Exception {
    try (JobFile job = JobFile.open(directory.resolve("clock.bellwire"));
        VigilRun run = begin(job, 1, 40)) {
      on(run, 10);
      setBackMicros = 3600 * SECOND;
      on(run, 10);
      device.freezeAgent(true);
      on(run, 1);
      device.freezeAgent(false);
      while (run.step(SECOND)) {
        assertThat(line.nowMicros()).isLessThan(60 * SECOND);
      }
      assertThat(run.ending()).isEqualTo("its time was over");
      assertThat(line.nowMicros()).isBetween(39 * SECOND, 44 * SECOND);
    }
  }

  /** What was not read while the agent was held up counted as open: soak seed 328. */
  @Test
  void whatWasNotReadIsNotOpen() throws Exception {
    Path file = directory.resolve("held.bellwire");
    try (JobFile job = JobFile.open(file);
        VigilRun run =
            VigilRun.begin(
                job,
                SimulatedVigil.order(Kind.TREND, 1, 60 * SECOND),
                SimulatedVigil.means(line, line::nowMicros))) {
      for (int i = 0; i < 10; i++) {
        on(run, 4);
        device.freezeAgent(true);
        on(run, 1);
        device.freezeAgent(false);
      }
      while (run.step(SECOND)) {
        assertThat(line.nowMicros()).isLessThan(80 * SECOND);
      }
    }
    List<ConductorTrend> all =
        VigilLoader.load(file, 1, StoredVigil.Part.ALL, Counting.EACH, share -> {})
            .trend()
            .orElseThrow()
            .conductors();
    assertThat(all).hasSize(5).allMatch(each -> each.open() == 0 && each.readings() > 15);
  }

  /** What a chip did once was told again at each start, and ended it: soak seed 10. */
  @Test
  void troubleThatIsOverLetsTheNextVigilBegin() throws Exception {
    try (JobFile job = JobFile.open(directory.resolve("first.bellwire"))) {
      try (VigilRun run = begin(job, 1, 600)) {
        on(run, 5);
        device.device("expanders").fail(Fault.STUCK_LOW, 0);
        while (run.step(SECOND)) {
          assertThat(line.nowMicros()).isLessThan(20 * SECOND);
        }
        assertThat(run.ending()).startsWith("ended by trouble with the board");
      }
    }
    device.device("expanders").fail(Fault.NONE, 0);
    try (JobFile job = JobFile.open(directory.resolve("second.bellwire"));
        VigilRun run = begin(job, 2, 5)) {
      while (run.step(SECOND)) {
        assertThat(line.nowMicros()).isLessThan(60 * SECOND);
      }
      assertThat(run.ending()).isEqualTo("its time was over");
    }
  }

  /** The last acknowledgement was lost, and the next job's vigil refused: soak seed 1156. */
  @Test
  void aVigilThatEndedOnABadLineIsHandedOverLater() throws Exception {
    OneWayLine oneWay = new OneWayLine(line);
    line = oneWay;
    Path first = directory.resolve("first.bellwire");
    try (JobFile job = JobFile.open(first);
        VigilRun run = begin(job, 1, 3)) {
      on(run, 2);
      oneWay.toHostOnly = true;
      while (run.step(SECOND / 10)) {
        assertThat(line.nowMicros()).isLessThan(20 * SECOND);
      }
      assertThat(run.ending()).isEqualTo("its time was over");
    }
    oneWay.toHostOnly = false;
    try (JobFile job = JobFile.open(directory.resolve("second.bellwire"))) {
      assertThatThrownBy(() -> begin(job, 2, 5))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining("still has what it recorded of it");
      try (JobFile before = JobFile.open(first)) {
        assertThat(VigilRun.handOver(before, SimulatedVigil.means(line, line::nowMicros))).isTrue();
      }
      try (VigilRun run = begin(job, 2, 5)) {
        on(run, 2);
      }
    }
  }

  /** Carries nothing to the board while it is told so. */
  private static final class OneWayLine extends WrappedLine {
    private boolean toHostOnly;

    OneWayLine(Transport line) {
      super(line);
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      if (!toHostOnly) {
        super.write(bytes, off, len);
      }
    }
  }
}
