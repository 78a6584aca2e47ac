package bellwire.app.vigil;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.analysis.vigil.ConductorSummary;
import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.InterruptionClass;
import bellwire.analysis.vigil.Interval;
import bellwire.analysis.vigil.MarkEffect;
import bellwire.analysis.vigil.Period;
import bellwire.analysis.vigil.PoissonRate;
import bellwire.analysis.vigil.Simultaneous;
import bellwire.analysis.vigil.Subject;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilComparison;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.analysis.vigil.VigilSummary;
import bellwire.app.job.Mark;
import bellwire.app.survey.BoardSaid;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A vigil's statement, or a comparison of two, as JSON: docs/vigil-json.md. */
public final class VigilJson {
  public static final int VERSION = 1;
  private static final double HOUR = 3600;

  private static final ObjectMapper MAPPER =
      new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);

  private final VigilNames names;
  private final VigilClock clock;
  private final VigilWords words;
  private final StoredVigil vigil;

  private VigilJson(StoredVigil vigil, ZoneId zone) {
    this.vigil = vigil;
    names = VigilText.namesOf(vigil);
    clock = new VigilClock(vigil.row(), zone);
    words = new VigilWords(names, clock, vigil.watch());
  }

  /** The statement, ending in a newline. */
  public static String text(StoredVigil vigil, ZoneId zone, List<String> cautions) {
    ObjectNode root = begin("bellwire-vigil", cautions);
    VigilJson json = new VigilJson(vigil, zone);
    json.watch(root);
    json.findings(root.putArray("findings"));
    json.statement(root.putArray("statement"), zone);
    vigil.events().ifPresent(e -> json.events(root, e));
    vigil.trend().ifPresent(t -> json.trend(root, t));
    return written(root);
  }

  /** The comparison, ending in a newline. */
  public static String text(
      VigilComparison comparison, StoredVigil before, StoredVigil after, List<String> cautions) {
    ObjectNode root = begin("bellwire-vigil-comparison", cautions);
    VigilJson json = new VigilJson(before, java.time.ZoneOffset.UTC);
    root.put("before", before.row().id());
    root.put("after", after.row().id());
    root.put("program", before.watched().program());
    json.line(root.putObject("whole"), comparison.whole());
    ArrayNode lines = root.putArray("conductors");
    comparison.conductors().forEach(line -> json.line(lines.addObject(), line));
    return written(root);
  }

  private static ObjectNode begin(String kind, List<String> cautions) {
    ObjectNode root = MAPPER.createObjectNode();
    root.put(kind, VERSION);
    ArrayNode told = root.putArray("cautions");
    cautions.forEach(told::add);
    return root;
  }

  private static String written(ObjectNode root) {
    try {
      return MAPPER.writeValueAsString(root) + "\n";
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private void watch(ObjectNode root) {
    root.put("vigil", vigil.row().id());
    root.put("program", vigil.watched().program());
    root.put("note", vigil.watched().note());
    root.put("started-unix-micros", vigil.row().startedUnixMicros());
    root.put("from-seconds", seconds(vigil.watch().fromMicros()));
    root.put("to-seconds", seconds(vigil.watch().toMicros()));
    root.put("watched-seconds", vigil.watch().exposure().seconds());
    root.put("unwatched-seconds", vigil.unwatchedMicros() / 1e6);
    BoardSaid said = BoardSaid.of(vigil.watched().board());
    root.putObject("board")
        .put("revision", said.revision())
        .put("agent", said.program())
        .put("self-check", said.selfCheck());
    vigil.row().ending().ifPresent(e -> root.put("ending", e.outcome()));
    ports(root.putArray("conductors-watched"), vigil.watch().ports());
    ObjectNode called = root.putObject("names");
    vigil.watched().names().forEach((port, name) -> called.put(plain(port), name));
    if (vigil.watch().program() == VigilProgram.CONTINUITY) {
      root.put("returned", plain(vigil.watch().returned()));
      put(root, "shortest-opening-micros", vigil.watch().shortestMicros());
    }
    root.put("too-many-events", vigil.tooMany());
    ArrayNode gaps = root.putArray("not-watched");
    for (Unwatched gap : vigil.gaps()) {
      gaps.addObject()
          .put("from-seconds", seconds(gap.fromMicros()))
          .put("to-seconds", seconds(gap.toMicros()))
          .put("reason", gap.reason());
    }
    ArrayNode marks = root.putArray("marks");
    for (Mark mark : vigil.marks()) {
      marks.addObject().put("at-seconds", seconds(mark.micros())).put("text", mark.text());
    }
  }

  /** What needs to be looked at, in the statement's order. */
  private void findings(ArrayNode all) {
    for (ConductorSummary each : vigil.events().map(VigilSummary::conductors).orElse(List.of())) {
      if (each.count() > 0) {
        ObjectNode node = all.addObject().put("kind", lower(each.subject().happening()));
        ports(node.putArray("conductors"), each.subject().ports());
        ports(node.putArray("one-of"), each.subject().others());
        node.put("words", words.headline(each));
      }
    }
    vigil.trend().ifPresent(summary -> findings(all, summary));
  }

  private void findings(ArrayNode all, TrendSummary summary) {
    TrendWords said = new TrendWords(names, clock, summary);
    for (ConductorTrend each : summary.conductors()) {
      if (TrendWords.suspect(each)) {
        ObjectNode node = all.addObject().put("kind", TrendWords.kind(each));
        node.putArray("conductors").add(plain(each.port()));
        node.putArray("one-of");
        node.put("words", said.headline(each));
      }
    }
    for (String words : said.nothing()) {
      ObjectNode node = all.addObject().put("kind", "not-measured");
      node.putArray("conductors");
      node.putArray("one-of");
      node.put("words", words);
    }
  }

  /** The sentences of a report. */
  private void statement(ArrayNode all, ZoneId zone) {
    for (VigilStatement.Part part : VigilText.statement(vigil, zone).parts()) {
      for (VigilStatement.Line line : part.lines()) {
        all.addObject()
            .put("part", part.title().toLowerCase(Locale.ROOT))
            .put("finding", line.finding())
            .put("words", line.words());
      }
    }
  }

  private void events(ObjectNode root, VigilSummary summary) {
    rate(root.putObject("incidents"), summary.incidents());
    ArrayNode all = root.putArray("conductors");
    summary.conductors().forEach(each -> conductor(all.addObject(), each));
    ArrayNode sets = root.putArray("together");
    for (Simultaneous each : summary.together()) {
      ObjectNode node = sets.addObject();
      ports(node.putArray("conductors"), each.ports());
      node.put("kind", lower(each.kind()));
      ports(node.putArray("suspect"), each.suspect());
      node.put("count", each.count());
      node.put("expected-by-chance", each.expected());
      node.put("words", words.together(each));
    }
    ArrayNode said = root.putArray("words");
    if (summary.incidents().events() == 0) {
      words.nothing(summary).forEach(said::add);
    }
    words.limits(summary).forEach(said::add);
  }

  private void subject(ObjectNode node, Subject who) {
    node.put("happening", lower(who.happening()));
    ports(node.putArray("conductors"), who.ports());
    ports(node.putArray("one-of"), who.others());
  }

  private void conductor(ObjectNode node, ConductorSummary of) {
    subject(node, of.subject());
    rate(node.putObject("rate"), of.rate());
    node.put("shorter-than-a-tick", of.brief());
    node.put("cut", of.cut());
    node.put("longest-least-micros", of.longestLeastMicros());
    node.put("longest-most-micros", of.longestMostMicros());
    node.put("total-least-micros", of.totalLeastMicros());
    node.put("total-most-micros", of.totalMostMicros());
    if (of.count() > 0) {
      node.put("first-seconds", seconds(of.firstMicros()));
      node.put("last-seconds", seconds(of.lastMicros()));
    }
    ObjectNode classes = node.putObject("o62-classes");
    for (InterruptionClass each : InterruptionClass.values()) {
      classes.put(lower(each), of.classes().getOrDefault(each, 0L));
    }
    if (of.assumedMicros() > 0) {
      node.put("chance-of-seeing", of.chanceOfSeeing());
      node.put("chance-of-seeing-for-micros", of.assumedMicros());
    }
    ObjectNode rhythm = node.putObject("rhythm");
    rhythm.put("manner", lower(of.rhythm().manner()));
    rhythm.put("chance", of.rhythm().chance());
    rhythm.put("groups", of.rhythm().groups());
    of.rhythm().period().ifPresent(p -> period(rhythm.putObject("period"), p));
    marks(node.putObject("marks"), of.marks());
    ArrayNode said = node.putArray("words");
    if (of.count() > 0) {
      said.add(words.headline(of));
      words.details(of).forEach(said::add);
    }
  }

  private static void period(ObjectNode node, Period period) {
    node.put("seconds", period.periodMicros() / 1e6);
    node.put("half-step-seconds", period.uMicros() / 1e6);
    node.put("resultant", period.resultant());
    node.put("chance", period.chance());
  }

  private static void marks(ObjectNode node, MarkEffect marks) {
    node.put("marks", marks.marks());
    node.put("events-after-one", marks.near());
    node.put("expected-by-chance", marks.expected());
    node.put("chance", marks.chance());
  }

  private void trend(ObjectNode root, TrendSummary summary) {
    TrendWords said = new TrendWords(names, clock, summary);
    ArrayNode all = root.putArray("trends");
    for (ConductorTrend each : summary.conductors()) {
      ObjectNode node = all.addObject();
      node.put("conductor", plain(each.port()));
      quantity(node, "resistance", each.mean());
      node.put("readings", each.readings());
      node.put("without-value", each.open());
      put(node, "least-ohm", each.leastOhms());
      put(node, "greatest-ohm", each.greatestOhms());
      node.put("course", lower(each.course()));
      node.put("chance", each.chance());
      quantity(node, "change", each.change());
      quantity(node, "per-hour", each.perHour());
      if (each.changeMicros() >= 0) {
        node.put("change-seconds", seconds(each.changeMicros()));
      }
      each.alarm()
          .ifPresent(
              a ->
                  node.putObject("alarm")
                      .put("side", lower(a.side()))
                      .put("at-seconds", seconds(a.micros()))
                      .put("since-seconds", seconds(a.sinceMicros())));
      ArrayNode lines = node.putArray("words");
      lines.add(said.headline(each));
      said.details(each).forEach(lines::add);
    }
    summary
        .common()
        .ifPresent(
            c -> {
              quantity(root, "common-change", c);
              root.put("common-kelvin", summary.kelvin());
            });
    root.put("false-alarm-days", summary.falseAlarmDays());
    root.put("block-seconds", summary.blockMicros() / 1e6);
    said.common().forEach(root.putArray("words")::add);
  }

  private void line(ObjectNode node, VigilComparison.Line line) {
    line.subject()
        .ifPresent(
            who -> {
              subject(node, who);
            });
    rate(node.putObject("before"), line.before());
    rate(node.putObject("after"), line.after());
    node.put("bursts", line.bursts());
    node.put("chance-of-so-few", line.chanceOfSoFew());
    node.put("chance-of-none-at-earlier-rate", line.chanceOfNone());
    interval(node, "ratio", line.ratio(), 1);
    put(node, "seconds-to-be-sure", line.secondsToBeSure());
    node.put("words", ComparisonText.verdict(line));
  }

  private static void rate(ObjectNode node, PoissonRate rate) {
    node.put("events", rate.events());
    node.put("seconds", rate.seconds());
    node.put("per-hour", rate.perSecond() * HOUR);
    interval(node, "per-hour-95", rate.perSecond(VigilFigures.CONFIDENCE), HOUR);
    if (rate.events() == 0) {
      put(node, "excluded-per-hour", VigilFigures.excludedPerSecond(rate.seconds()) * HOUR);
    }
  }

  private static void interval(ObjectNode node, String name, Interval interval, double unit) {
    ArrayNode both = node.putArray(name);
    both.add(interval.low() * unit);
    if (Double.isFinite(interval.high())) {
      both.add(interval.high() * unit);
    } else {
      both.addNull();
    }
  }

  private static void quantity(ObjectNode node, String name, Quantity quantity) {
    if (Double.isFinite(quantity.value())) {
      node.putObject(name)
          .put("value", quantity.value())
          .put("standard-uncertainty", quantity.u())
          .put("unit", quantity.unit());
    } else {
      node.putNull(name);
    }
  }

  private static void put(ObjectNode node, String name, double value) {
    if (Double.isFinite(value)) {
      node.put(name, value);
    } else {
      node.putNull(name);
    }
  }

  private double seconds(long micros) {
    return (micros - vigil.row().startedMicros()) / 1e6;
  }

  private String plain(int port) {
    return new VigilNames(vigil.watch().program(), Map.of()).of(port);
  }

  private void ports(ArrayNode array, int mask) {
    for (int left = mask; left != 0; left &= left - 1) {
      array.add(plain(Integer.numberOfTrailingZeros(left)));
    }
  }

  private static String lower(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
