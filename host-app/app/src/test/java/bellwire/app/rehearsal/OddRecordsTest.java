package bellwire.app.rehearsal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import bellwire.app.survey.InstrumentTrouble;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Map;
import java.util.Set;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Records that nobody took of a control. */
class OddRecordsTest {
  private static final Duration PATIENCE = Duration.ofSeconds(60);
  private static final String HEAD =
      "{\"bellwire-trace\":1,\"rehearsal\":\"boiler-dry\",\"terminals\":[\"W1\"]}\n";
  private static final String KNOWN =
      "{\"at\":0,\"delta\":[0,1,1000,3000],\"late\":[5,3001],\"took\":[9,3001],\"word\":[0,3001]}\n";
  private static final String BEGUN = "{\"begun\":\"begin\",\"from\":3000000,\"to\":3000000}\n";

  private static RehearsalOutcome outcome(byte[] record, boolean packed) throws Exception {
    Rehearsal rehearsal = RehearsalFile.builtIn("boiler-dry", Map.of());
    try (Replay replay =
        Replay.open("r.jsonl", new ByteArrayInputStream(record), packed, rehearsal)) {
      return assertTimeoutPreemptively(
          PATIENCE,
          () -> new RehearsalRun(rehearsal, Set.of(), replay, replay, CallRecord.NONE, 50).run());
    }
  }

  /** Nothing comes of it, whatever is waited for: it used to wait for ever. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        HEAD + "{}\n{}\n",
        HEAD + "{\"begun\":\"begin\"}\n",
        HEAD + "{\"over\":1,\"next\":\"WAIT\"}\n{}\n"
      })
  void aLineInTheWrongPlaceBeforeTheFirstLevelIsTold(String record) {
    assertThatThrownBy(() -> outcome(record.getBytes(StandardCharsets.UTF_8), false))
        .isInstanceOf(InstrumentTrouble.class)
        .hasMessageMatching("r\\.jsonl:\\d: a line that has no place here");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"{\"board\":\"A\"}\n{}\n", "{\"over\":\"begin\",\"next\":\"WAIT\"}\n{}\n"})
  void aLineInTheWrongPlaceWithinAStepIsTold(String line) throws Exception {
    byte[] record = (HEAD + KNOWN + BEGUN + line).getBytes(StandardCharsets.UTF_8);
    assertThat(outcome(record, false).trouble()).contains("a line that has no place here");
  }

  /** A time near the end of numbers used to overflow in the first level. */
  @ParameterizedTest
  @ValueSource(longs = {Long.MAX_VALUE - 50, 1L << 61, -7})
  void aTimeThatNoClockTellsIsRefused(long at) {
    String record = HEAD + KNOWN.replace("\"at\":0", "\"at\":" + at);
    assertThatThrownBy(() -> outcome(record.getBytes(StandardCharsets.UTF_8), false))
        .isInstanceOf(InstrumentTrouble.class)
        .hasMessageContaining("no time: at=" + at);
  }

  @ParameterizedTest
  @ValueSource(strings = {"\"from\":9,\"to\":3", "\"from\":-9,\"to\":3", "\"from\":9,\"to\":4e18"})
  void aStepBegunAtNoTimeIsTold(String times) throws Exception {
    String record = HEAD + KNOWN + "{\"begun\":\"begin\"," + times + "}\n";
    assertThat(outcome(record.getBytes(StandardCharsets.UTF_8), false).trouble())
        .startsWith("r.jsonl:3: ");
  }

  /** Found by the fuzzer: a gap of minutes in one frame, at the end of a step. */
  @Test
  void whatCannotBePutInOrderIsTold() {
    String record =
        HEAD
            + "{\"board\":\"A\",\"agent\":\"0.1\",\"self-check\":\"\"}\n"
            + "{\"at\":1000,\"delta\":[0,1,1000,99],\"late\":[5,100],\"took\":[9,100],"
            + "\"word\":[0,60,1,40]}\n"
            + "{\"at\":101000,\"delta\":[0,1,165536000,99],\"late\":[5,100],\"took\":[9,100],"
            + "\"word\":[0,100]}\n"
            + "{\"over\":\"begin\",\"next\":\"GO_ON\"}\n";
    assertThatThrownBy(() -> outcome(record.getBytes(StandardCharsets.UTF_8), false))
        .isInstanceOf(InstrumentTrouble.class)
        .hasMessageContaining("cannot be put in order");
  }

  @Test
  void aFewPackedBytesDoNotComeToMoreThanADay() throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (GZIPOutputStream zip = new GZIPOutputStream(out)) {
      zip.write(HEAD.getBytes(StandardCharsets.UTF_8));
      for (long at = 0; at < 1400; at++) {
        String frame =
            String.format(
                "{\"at\":%d,\"delta\":[0,1,1,65535],\"late\":[0,65536],\"took\":[9,65536],"
                    + "\"word\":[0,65536]}\n",
                at * 70_000);
        zip.write(frame.getBytes(StandardCharsets.UTF_8));
      }
    }
    assertThat(out.size()).isLessThan(30_000);
    assertThat(outcome(out.toByteArray(), true).trouble()).contains("more samples than a day has");
  }
}
