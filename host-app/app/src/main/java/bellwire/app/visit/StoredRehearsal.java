package bellwire.app.visit;

import bellwire.app.job.RehearsalRow;
import bellwire.app.rehearsal.CallRecord;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalRun;
import bellwire.app.rehearsal.Replay;
import bellwire.app.rehearsal.TimeBound;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.board.BoardDescription;
import bellwire.yaml.FileException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;

/** A rehearsal of a job file, judged again from its record. */
public final class StoredRehearsal {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private StoredRehearsal() {}

  /** The rehearsal as it was gone through, with the times that held. */
  public static Rehearsal rehearsal(RehearsalRow row) throws IOException, FileException {
    JsonNode told = MAPPER.readTree(row.json());
    Map<String, String> times = new LinkedHashMap<>();
    for (JsonNode time : told.path("times")) {
      if (time.path("basis").asText().equals(TimeBound.SET_BY_USER)) {
        times.put(time.path("name").asText(), time.path("seconds").asText() + " s");
      }
    }
    return RehearsalFile.parse(told.path("rehearsal").asText("rehearsal"), row.file(), times);
  }

  /**
   * @throws IOException with a sentence for people where file or record is damaged
   */
  public static RehearsalOutcome outcome(RehearsalRow row) throws IOException {
    String name = "rehearsal " + row.id() + " of the job";
    try {
      Rehearsal rehearsal = rehearsal(row);
      double ppm = BoardDescription.revisionA().value("clock-ppm").tolerance();
      try (Replay replay =
          Replay.open(name, new ByteArrayInputStream(row.trace()), true, rehearsal)) {
        return new RehearsalRun(
                rehearsal, new LinkedHashSet<>(row.options()), replay, replay, CallRecord.NONE, ppm)
            .run();
      }
    } catch (FileException | InstrumentTrouble e) {
      throw new IOException(name + " cannot be read again: " + e.getMessage(), e);
    }
  }
}
