package bellwire.app.desk.survey;

import bellwire.app.job.ConductorRow;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.report.VoltageText;
import bellwire.app.sheet.SurveySheet;
import java.io.IOException;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A survey of the job, read.
 *
 * @param sheet with the colours that the job has now; null where the survey can't be read
 * @param voltage what is said of the voltage that ended it; empty where it has a result
 * @param trouble why it can't be read; empty where it can
 */
record Seen(SurveyRow row, @Nullable SurveySheet sheet, List<String> voltage, String trouble) {
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ROOT).withZone(ZoneId.systemDefault());

  static Seen of(SurveyRow row, List<ConductorRow> conductors) {
    try {
      SurveySheet sheet = SurveySheet.of(row.json());
      return new Seen(row, recoloured(sheet, conductors), VoltageText.lines(row.json()), "");
    } catch (IOException e) {
      return new Seen(row, null, List.of(), String.valueOf(e.getMessage()));
    }
  }

  /** A colour told after the survey counts as much as one told before it. */
  private static SurveySheet recoloured(SurveySheet s, List<ConductorRow> rows) {
    List<SurveySheet.Conductor> conductors = new ArrayList<>();
    for (SurveySheet.Conductor c : s.conductors()) {
      String colour = c.colour();
      for (ConductorRow row : rows) {
        if (c.port().equals("P" + (row.port() + 1)) && !row.nearColour().isBlank()) {
          colour = row.nearColour().strip();
        }
      }
      conductors.add(
          new SurveySheet.Conductor(
              c.port(),
              colour,
              c.position(),
              c.farPossible(),
              c.odds(),
              c.ohms(),
              c.openAt(),
              c.standing(),
              c.reason()));
    }
    return s.withConductors(conductors);
  }

  String time() {
    return CLOCK.format(Instant.ofEpochSecond(row.atUnixMicros() / 1_000_000));
  }

  /** '26 Nov 14:05, in place, as found: 2 findings'. */
  String title() {
    return time()
        + (row.inPlace() ? ", in place" : ", lifted")
        + (row.stage() == Stage.AS_FOUND ? ", as found: " : ", as left: ")
        + outcome();
  }

  /** Whether it was gone through: neither damaged nor ended by voltage. */
  boolean hasResult() {
    return sheet != null && !sheet.stopped();
  }

  String outcome() {
    SurveySheet read = sheet;
    if (read == null) {
      return "can't be read";
    }
    if (read.stopped()) {
      return "VOLTAGE";
    }
    int findings = read.findings().size();
    return findings == 0 ? "no finding" : findings == 1 ? "1 finding" : findings + " findings";
  }
}
