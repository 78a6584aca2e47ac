package bellwire.app.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.app.bench.BenchTransport;
import bellwire.app.link.Transport;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** A session whose board, or whose disk, is not there any more. */
final class RehearsalSessionTest {
  private final StringWriter err = new StringWriter();
  private boolean closed;

  private int run(long silentFromMicros, @Nullable Path record) throws Exception {
    String bench = "bellwire-bench: 1\nseed: 1\ncontrol: {kind: heat-only}\n";
    BenchTransport line =
        BenchTransport.of(new SimulatedDevice(BenchFile.parse("bench.yaml", bench)));
    Transport silent =
        new Transport() {
          @Override
          public int read(byte[] into) {
            int count = line.read(into);
            return nowMicros() < silentFromMicros ? count : 0;
          }

          @Override
          public void write(byte[] bytes, int off, int len) {
            line.write(bytes, off, len);
          }

          @Override
          public void await(long micros) {
            line.await(micros);
          }

          @Override
          public long nowMicros() {
            return line.nowMicros();
          }

          @Override
          public String name() {
            return line.name();
          }

          @Override
          public void close() {
            closed = true;
            line.close();
          }
        };
    Rehearsal rehearsal = RehearsalFile.builtIn("heat-only", Map.of());
    return new RehearsalSession(
            new PrintWriter(new StringWriter()),
            new PrintWriter(err),
            rehearsal,
            new RehearsalSession.Choices(Set.of(), false, Double.NaN, true, record, null, null, ""))
        .run(silent, 921_600, line);
  }

  @Test
  void aBoardThatFellSilentMayStillHoldTheControl() throws Exception {
    assertEquals(ExitCode.BOARD_OR_LINK_TROUBLE.status(), run(40_000_000, null));
    assertTrue(err.toString().contains("fell silent"), err.toString());
    assertTrue(err.toString().contains("switch it off before you touch the leads"), err.toString());
    assertTrue(closed);
  }

  @Test
  void aRecordThatCannotBeOpenedLeavesNoLineOpen() throws Exception {
    Path nowhere = Path.of("no-such-directory", "record.jsonl");
    assertEquals(ExitCode.WRONG_USAGE_OR_FILE.status(), run(Long.MAX_VALUE, nowhere));
    assertTrue(closed);
  }
}
