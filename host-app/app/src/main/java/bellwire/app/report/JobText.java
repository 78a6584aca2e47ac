package bellwire.app.report;

import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.Checklist;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.Photo;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import bellwire.app.job.VigilRow;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What is in a job file, for a terminal. */
public final class JobText {
  /** Exactly: the international foot of 1959. */
  private static final double METRES_PER_FOOT = 0.3048;

  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final JobReader reader;
  private final JobRecords records;
  private final DateTimeFormatter clock;
  private final List<String> out = new ArrayList<>();

  private JobText(JobReader reader, ZoneId zone) {
    this.reader = reader;
    records = reader.records();
    clock = DateTimeFormatter.ofPattern("d MMM uuuu HH:mm", Locale.ENGLISH).withZone(zone);
  }

  public static List<String> lines(JobReader reader, ZoneId zone) throws JobFileException {
    JobText text = new JobText(reader, zone);
    text.told();
    text.cables();
    text.measured();
    text.left();
    return text.out;
  }

  private void told() throws JobFileException {
    out.add("VISIT");
    for (Fact fact : Fact.values()) {
      String text = records.fact(fact);
      if (!text.isEmpty()) {
        say(word(fact) + ": ", text);
      }
    }
    out.add("");
    out.add("ACTS");
    List<Act> acts = records.acts();
    if (acts.isEmpty()) {
      out.add("  none recorded: nothing says that the equipment was off and proved dead");
    }
    for (Act act : acts) {
      String reading = act.reading().isEmpty() ? "" : ", meter: " + act.reading();
      String withdrawn = act.withdrawn() ? " (withdrawn)" : "";
      say(
          at(act.atUnixMicros()) + "  ",
          word(act.kind()) + ": " + act.what() + reading + by(act.by()) + withdrawn);
    }
  }

  private void cables() throws JobFileException {
    for (CableRow cable : records.cables()) {
      out.add("");
      String length = Double.isNaN(cable.metres()) ? "" : ", " + length(cable.metres());
      String gauge = cable.gauge().isEmpty() ? "" : ", " + cable.gauge();
      out.add("CABLE " + cable.name() + gauge + length);
      for (ConductorRow one : records.conductors(cable.id())) {
        String far =
            one.farColour().isEmpty() || one.farColour().equals(one.nearColour())
                ? ""
                : ", at the wall " + one.farColour();
        say("P" + (one.port() + 1) + "  ", one.nearColour() + far);
      }
    }
  }

  /** In the unit that the job is kept in. */
  private String length(double metres) throws JobFileException {
    return records.fact(Fact.UNITS).equals("feet")
        ? String.format(Locale.ROOT, "%.0f ft", metres / METRES_PER_FOOT)
        : String.format(Locale.ROOT, "%.1f m", metres);
  }

  private void measured() throws JobFileException {
    out.add("");
    out.add("MEASURED");
    int lines = out.size();
    for (SurveyRow row : records.surveys()) {
      say(
          at(row.atUnixMicros()) + "  ",
          "survey "
              + row.id()
              + ", "
              + word(row.stage())
              + (row.inPlace() ? ", in place: " : ", conductors lifted: ")
              + surveyed(row.json()));
    }
    for (LandingRow row : records.landings()) {
      say(at(row.atUnixMicros()) + "  ", "landing " + row.id());
    }
    for (RehearsalRow row : records.rehearsals()) {
      say(
          at(row.atUnixMicros()) + "  ",
          "rehearsal " + row.id() + (row.live() ? ", live: " : ": ") + rehearsed(row.json()));
    }
    for (VigilRow row : reader.vigils()) {
      String end = row.ending().map(e -> e.outcome()).orElse("not ended: under way, or left");
      say(
          at(row.startedUnixMicros()) + "  ",
          "vigil " + row.id() + ", " + row.program() + ": " + end);
    }
    if (out.size() == lines) {
      out.add("  nothing yet");
    }
  }

  private static String surveyed(String json) {
    JsonNode root = parsed(json);
    if (root.path("interlock").path("stopped-the-survey").asBoolean()) {
      return "stopped by foreign voltage";
    }
    int findings = root.path("findings").size();
    return root.path("conductors").size() + " conductors, " + count(findings, "finding");
  }

  private static String rehearsed(String json) {
    JsonNode root = parsed(json);
    String early = root.path("ended-early").asText();
    String verdict =
        root.path("good").asBoolean()
            ? "good"
            : "not good, " + count(root.path("findings").size(), "finding");
    return root.path("title").asText()
        + ", "
        + verdict
        + (early.isEmpty() ? "" : ", ended early: " + early);
  }

  /** What is damaged has no fields, and is told as such by the counts. */
  private static JsonNode parsed(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (JsonProcessingException e) {
      return MAPPER.createObjectNode();
    }
  }

  private void left() throws JobFileException {
    out.add("");
    out.add("CHECKLIST");
    List<Tick> ticks = records.ticks();
    for (Checklist.Item item : Checklist.items()) {
      String state =
          ticks.stream()
              .filter(t -> t.item().equals(item.key()))
              .findFirst()
              .map(JobText::state)
              .orElse("open");
      say("", item.words() + ": " + state);
    }
    out.add("");
    List<Photo> photos = records.photos();
    out.add("PHOTOGRAPHS " + photos.size());
    for (Photo photo : photos) {
      say(photo.id() + "  ", word(photo.stage()) + ": " + photo.caption());
    }
    out.add("");
    out.add("SHA-256 " + records.digest());
  }

  private static String state(Tick tick) {
    if (tick.state() == Tick.State.OPEN) {
      return "open";
    }
    return word(tick.state()) + ", " + word(tick.basis()) + by(tick.by());
  }

  private static String by(String person) {
    return person.isEmpty() ? "" : ", by " + person;
  }

  private static String count(int n, String what) {
    return n == 0 ? "no " + what + "s" : n + " " + what + (n == 1 ? "" : "s");
  }

  private void say(String head, String text) {
    out.addAll(Paragraph.hanging("  " + head, text.replaceAll("\\s+", " ")));
  }

  private String at(long unixMicros) {
    return clock.format(Instant.EPOCH.plus(unixMicros, ChronoUnit.MICROS));
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
