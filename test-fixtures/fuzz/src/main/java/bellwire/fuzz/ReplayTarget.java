package bellwire.fuzz;

import bellwire.app.rehearsal.CallRecord;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalRun;
import bellwire.app.rehearsal.Replay;
import bellwire.app.report.RehearsalJson;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.yaml.FileException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A rehearsal's record, played again and judged; compressed where it begins so (RFC 1952). */
final class ReplayTarget implements Target {
  private static final int GZIP = 0x1F;
  private static final double CLOCK_PPM = 50;
  private static final String NAME = "record.jsonl";

  private final Rehearsal rehearsal;

  ReplayTarget() {
    try {
      rehearsal = RehearsalFile.builtIn("boiler-dry", Map.of());
    } catch (FileException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void take(byte[] input) {
    boolean packed = input.length > 0 && input[0] == GZIP;
    try (Replay replay = Replay.open(NAME, new ByteArrayInputStream(input), packed, rehearsal)) {
      RehearsalOutcome outcome =
          new RehearsalRun(rehearsal, Set.of(), replay, replay, CallRecord.NONE, CLOCK_PPM).run();
      RehearsalJson.text(outcome, Set.of(), false, List.of());
    } catch (InstrumentTrouble e) {
      Sentences.check(e.getMessage());
    } catch (IOException e) {
      Finding.unless(packed, "not compressed, and not read: %s", e);
    }
  }
}
