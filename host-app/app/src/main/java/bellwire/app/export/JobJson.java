package bellwire.app.export;

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
import bellwire.app.report.Cautions;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilJson;
import bellwire.app.vigil.VigilLoader;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Everything of a job as one JSON object: docs/job-json.md. */
public final class JobJson {
  public static final int VERSION = 1;
  static final ObjectMapper MAPPER = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final Path job;
  private final JobReader reader;
  private final JobRecords records;
  private final ZoneId zone;
  private final ObjectNode root = MAPPER.createObjectNode();

  private JobJson(Path job, JobReader reader, ZoneId zone) {
    this.job = job;
    this.reader = reader;
    this.zone = zone;
    records = reader.records();
  }

  /**
   * Reads the job as the reader sees it. Takes as long as its vigils take to be read, some seconds
   * for a day.
   *
   * @param job the file of the reader
   * @param program this program's version
   * @param cancelled asked before each part that takes long
   * @throws CancellationException where it was
   */
  public static ObjectNode of(
      Path job,
      JobReader reader,
      Instant now,
      ZoneId zone,
      String program,
      BooleanSupplier cancelled)
      throws JobFileException {
    JobJson json = new JobJson(job, reader, zone);
    json.head(now, program);
    json.told();
    json.measured();
    for (VigilRow row : reader.vigils()) {
      if (cancelled.getAsBoolean()) {
        throw new CancellationException();
      }
      json.root.withArray("vigils").add(json.vigil(row));
    }
    json.left();
    return json.root;
  }

  /** With a newline at its end. */
  public static String text(ObjectNode root) {
    try {
      return MAPPER.writeValueAsString(root) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("a tree of our own", e);
    }
  }

  private void head(Instant now, String program) throws JobFileException {
    root.put("bellwire-job", VERSION);
    ArrayNode cautions = root.putArray("cautions");
    Cautions.lines().forEach(cautions::add);
    root.put("written", now.truncatedTo(ChronoUnit.SECONDS).toString());
    root.put("program", program);
    root.put("sha-256", records.digest());
  }

  private void told() throws JobFileException {
    ObjectNode facts = root.putObject("facts");
    for (Fact fact : Fact.values()) {
      String text = records.fact(fact);
      if (!text.isEmpty()) {
        facts.put(word(fact), text);
      }
    }
    ArrayNode acts = root.putArray("acts");
    for (Act act : records.acts()) {
      ObjectNode one = acts.addObject();
      one.put("kind", word(act.kind())).put("what", act.what()).put("reading", act.reading());
      one.put("by", act.by());
      at(one, act.atUnixMicros());
      one.put("withdrawn", act.withdrawn());
    }
    ArrayNode cables = root.putArray("cables");
    for (CableRow cable : records.cables()) {
      cable(cables.addObject(), cable);
    }
  }

  private void cable(ObjectNode one, CableRow cable) throws JobFileException {
    one.put("cable", cable.id()).put("name", cable.name()).put("gauge", cable.gauge());
    number(one, "metres", cable.metres());
    number(one, "celsius", cable.celsius());
    one.put("near-place", cable.nearPlace()).put("far-place", cable.farPlace());
    one.put("note", cable.note());
    ArrayNode conductors = one.putArray("conductors");
    for (ConductorRow conductor : records.conductors(cable.id())) {
      conductors
          .addObject()
          .put("port", "P" + (conductor.port() + 1))
          .put("near-colour", conductor.nearColour())
          .put("far-colour", conductor.farColour())
          .put("note", conductor.note());
    }
  }

  private void measured() throws JobFileException {
    ArrayNode surveys = root.putArray("surveys");
    for (SurveyRow survey : records.surveys()) {
      ObjectNode one = surveys.addObject();
      one.put("survey", survey.id()).put("cable", survey.cable());
      one.put("stage", word(survey.stage())).put("in-place", survey.inPlace());
      at(one, survey.atUnixMicros());
      one.set("result", parsed(survey.json()));
    }
    ArrayNode landings = root.putArray("landings");
    for (LandingRow landing : records.landings()) {
      ObjectNode one = landings.addObject().put("landing", landing.id());
      if (landing.cable() != 0) {
        one.put("cable", landing.cable());
      }
      at(one, landing.atUnixMicros());
      one.put("file", landing.text());
    }
    ArrayNode rehearsals = root.putArray("rehearsals");
    for (RehearsalRow rehearsal : records.rehearsals()) {
      ObjectNode one = rehearsals.addObject().put("rehearsal", rehearsal.id());
      at(one, rehearsal.atUnixMicros());
      one.put("live", rehearsal.live());
      ArrayNode options = one.putArray("options");
      rehearsal.options().forEach(options::add);
      one.put("file", rehearsal.file());
      one.set("outcome", parsed(rehearsal.json()));
    }
    root.putArray("vigils");
  }

  /** As {@code vigil show --json} has it; what can't be read again says why. */
  private JsonNode vigil(VigilRow row) throws JobFileException {
    try {
      Part whole = new Part(0, Long.MAX_VALUE);
      return parsed(
          VigilJson.text(
              VigilLoader.load(job, row.id(), whole, Counting.EACH, share -> {}), zone, List.of()));
    } catch (BadVigil e) {
      return MAPPER
          .createObjectNode()
          .put("vigil", row.id())
          .put("program", row.program())
          .put("started-unix-micros", row.startedUnixMicros())
          .put("trouble", e.getMessage());
    }
  }

  private void left() throws JobFileException {
    Map<String, Tick> ticks =
        records.ticks().stream().collect(Collectors.toMap(Tick::item, Function.identity()));
    ArrayNode checklist = root.putArray("checklist");
    for (Checklist.Item item : Checklist.items()) {
      ObjectNode one = checklist.addObject().put("item", item.key()).put("words", item.words());
      Tick tick = ticks.get(item.key());
      one.put("state", tick == null ? "open" : word(tick.state()));
      if (tick != null) {
        tick(one, tick);
      }
    }
    // Items of another version are not dropped.
    for (Tick tick : records.ticks()) {
      if (Checklist.item(tick.item()).isEmpty()) {
        tick(
            checklist
                .addObject()
                .put("item", tick.item())
                .put("words", tick.item())
                .put("state", word(tick.state())),
            tick);
      }
    }
    ArrayNode photographs = root.putArray("photographs");
    for (Photo photo : records.photos()) {
      ObjectNode one = photographs.addObject().put("photograph", photo.id());
      one.put("stage", word(photo.stage())).put("caption", photo.caption());
      at(one, photo.atUnixMicros());
      one.put("mime", photo.mime()).put("bytes", photo.bytes()).put("file", fileName(photo));
    }
  }

  private static void tick(ObjectNode one, Tick tick) {
    one.put("basis", word(tick.basis())).put("by", tick.by());
    at(one, tick.atUnixMicros());
    one.put("note", tick.note());
  }

  /** Of the picture beside the JSON. */
  static String fileName(Photo photo) {
    String ending = photo.mime().equals("image/png") ? ".png" : ".jpg";
    return "photograph-" + photo.id() + ending;
  }

  /** What a file has that another program spoilt is kept as the text that it is. */
  private static JsonNode parsed(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (JsonProcessingException e) {
      return MAPPER.createObjectNode().put("unreadable", json);
    }
  }

  private static void at(ObjectNode one, long unixMicros) {
    one.put("at", Instant.EPOCH.plus(unixMicros, ChronoUnit.MICROS).toString());
  }

  private static void number(ObjectNode one, String name, double value) {
    if (Double.isNaN(value)) {
      one.putNull(name);
    } else {
      one.put(name, value);
    }
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
