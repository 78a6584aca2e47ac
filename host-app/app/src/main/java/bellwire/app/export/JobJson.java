package bellwire.app.export;

import bellwire.app.document.ReportContents;
import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Rehearsal;
import bellwire.app.document.ReportContents.Shot;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.ReportContents.Vigil;
import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.Checklist;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.Photo;
import bellwire.app.job.Tick;
import bellwire.app.report.Cautions;
import bellwire.app.report.RehearsalJson;
import bellwire.app.vigil.VigilJson;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Everything of a job as one JSON object, made of what the report is made of, so that the two can't
 * disagree: docs/job-json.md.
 */
public final class JobJson {
  public static final int VERSION = 1;
  static final ObjectMapper MAPPER = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final ReportContents contents;
  private final ObjectNode root = MAPPER.createObjectNode();

  private JobJson(ReportContents contents) {
    this.contents = contents;
  }

  public static ObjectNode of(ReportContents contents) {
    JobJson json = new JobJson(contents);
    json.head();
    json.told();
    json.surveys();
    LandingsJson.put(json.root.putArray("landings"), contents.landings());
    json.rehearsals();
    ArrayNode vigils = json.root.putArray("vigils");
    contents.vigils().forEach(vigil -> vigils.add(json.vigil(vigil)));
    json.left();
    ArrayNode troubles = json.root.putArray("troubles");
    contents.troubles().forEach(troubles::add);
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

  private void head() {
    root.put("bellwire-job", VERSION);
    ArrayNode cautions = root.putArray("cautions");
    Cautions.lines().forEach(cautions::add);
    root.put("written", contents.madeAt().truncatedTo(ChronoUnit.SECONDS).toString());
    root.put("program", contents.version());
    root.put("sha-256", contents.digest());
  }

  private void told() {
    ObjectNode facts = root.putObject("facts");
    for (Fact fact : Fact.values()) {
      String text = contents.fact(fact);
      if (!text.isEmpty()) {
        facts.put(word(fact), text);
      }
    }
    ArrayNode acts = root.putArray("acts");
    for (Act act : contents.acts()) {
      ObjectNode one = acts.addObject();
      one.put("kind", word(act.kind())).put("what", act.what()).put("reading", act.reading());
      one.put("by", act.by());
      at(one, act.atUnixMicros());
      one.put("withdrawn", act.withdrawn());
    }
    ArrayNode cables = root.putArray("cables");
    for (Cable cable : contents.cables()) {
      cable(cables.addObject(), cable.row(), cable.conductors());
    }
  }

  private static void cable(ObjectNode one, CableRow cable, List<ConductorRow> told) {
    one.put("cable", cable.id()).put("name", cable.name()).put("gauge", cable.gauge());
    number(one, "metres", cable.metres());
    number(one, "celsius", cable.celsius());
    one.put("near-place", cable.nearPlace()).put("far-place", cable.farPlace());
    one.put("note", cable.note());
    ArrayNode conductors = one.putArray("conductors");
    for (ConductorRow conductor : told) {
      conductors
          .addObject()
          .put("port", "P" + (conductor.port() + 1))
          .put("near-colour", conductor.nearColour())
          .put("far-colour", conductor.farColour())
          .put("note", conductor.note());
    }
  }

  /** Of all cables, in the order in which they were done. */
  private void surveys() {
    ArrayNode surveys = root.putArray("surveys");
    contents.cables().stream()
        .flatMap(cable -> cable.surveys().stream())
        .sorted(Comparator.comparingLong(s -> s.row().id()))
        .forEach(survey -> survey(surveys.addObject(), survey));
  }

  private static void survey(ObjectNode one, Survey survey) {
    one.put("survey", survey.row().id()).put("cable", survey.row().cable());
    one.put("stage", word(survey.row().stage())).put("in-place", survey.row().inPlace());
    at(one, survey.row().atUnixMicros());
    one.put("self-check", survey.selfCheck());
    trouble(one, survey.trouble());
    one.set("result", parsed(survey.row().json()));
  }

  private void rehearsals() {
    ArrayNode rehearsals = root.putArray("rehearsals");
    for (Rehearsal rehearsal : contents.rehearsals()) {
      ObjectNode one = rehearsals.addObject().put("rehearsal", rehearsal.row().id());
      at(one, rehearsal.row().atUnixMicros());
      one.put("live", rehearsal.row().live());
      ArrayNode options = one.putArray("options");
      rehearsal.row().options().forEach(options::add);
      one.put("file", rehearsal.row().file());
      trouble(one, rehearsal.trouble());
      one.set("outcome", outcome(rehearsal));
    }
  }

  /** Judged again, as the report has it; where that fails, as it was judged then. */
  private static JsonNode outcome(Rehearsal rehearsal) {
    if (rehearsal.outcome().isEmpty()) {
      return parsed(rehearsal.row().json());
    }
    try {
      return parsed(
          RehearsalJson.text(
              rehearsal.outcome().get(),
              new LinkedHashSet<>(rehearsal.row().options()),
              rehearsal.row().live(),
              List.of()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** As {@code vigil show --json} has it; what can't be read again says why. */
  private JsonNode vigil(Vigil vigil) {
    if (vigil.stored().isPresent()) {
      return parsed(VigilJson.text(vigil.stored().get(), contents.zone(), List.of()));
    }
    return MAPPER
        .createObjectNode()
        .put("vigil", vigil.row().id())
        .put("program", vigil.row().program())
        .put("started-unix-micros", vigil.row().startedUnixMicros())
        .put("trouble", vigil.trouble());
  }

  private void left() {
    Map<String, Tick> ticks =
        contents.ticks().stream().collect(Collectors.toMap(Tick::item, Function.identity()));
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
    for (Tick tick : contents.ticks()) {
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
    for (Shot shot : contents.photos()) {
      Photo photo = shot.row();
      ObjectNode one = photographs.addObject().put("photograph", photo.id());
      one.put("stage", word(photo.stage())).put("caption", photo.caption());
      at(one, photo.atUnixMicros());
      one.put("mime", photo.mime()).put("bytes", photo.bytes()).put("file", fileName(photo));
      trouble(one, shot.trouble());
    }
  }

  /** Why something can't be told, where it can't. */
  static void trouble(ObjectNode one, String why) {
    if (!why.isEmpty()) {
      one.put("trouble", why);
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
  static JsonNode parsed(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (JsonProcessingException e) {
      return MAPPER.createObjectNode().put("unreadable", json);
    }
  }

  static void at(ObjectNode one, long unixMicros) {
    one.put("at", Instant.EPOCH.plus(unixMicros, ChronoUnit.MICROS).toString());
  }

  static void number(ObjectNode one, String name, double value) {
    if (Double.isNaN(value)) {
      one.putNull(name);
    } else {
      one.put(name, value);
    }
  }

  static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
