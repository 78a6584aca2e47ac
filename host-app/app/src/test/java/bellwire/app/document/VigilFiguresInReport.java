package bellwire.app.document;

import com.fasterxml.jackson.databind.JsonNode;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * What of a vigil's JSON has to stand in its report, as text. Formats are those of docs/report.md,
 * written anew: two digits, times in the unit that fits. Every field must have its rule.
 */
final class VigilFiguresInReport {
  private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss");
  private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss");
  private static final DateTimeFormatter HEADING =
      DateTimeFormatter.ofPattern("d MMM uuuu HH:mm", Locale.ENGLISH);

  /** In the JSON alone, as docs/report.md says, or for programs: the report has it in words. */
  private static final Set<String> FOR_PROGRAMS =
      Set.of(
          "/bellwire-vigil",
          "/vigil",
          "/too-many-events",
          "/shortest-opening-micros",
          "/findings/kind",
          "/findings/conductors",
          "/findings/one-of",
          "/statement/part",
          "/statement/finding",
          "/together/conductors",
          "/together/kind",
          "/together/suspect",
          "/together/count",
          "/together/expected-by-chance",
          "/conductors/happening",
          "/conductors/conductors",
          "/conductors/one-of",
          "/conductors/rhythm/period/resultant",
          "/conductors/marks/marks",
          "/trends/alarm/side",
          "/trends/conductor");

  private final JsonNode vigil;
  private final Set<String> wanted = new LinkedHashSet<>();
  private final Set<String> ruled = new LinkedHashSet<>(FOR_PROGRAMS);

  VigilFiguresInReport(JsonNode vigil) {
    this.vigil = vigil;
  }

  /** Text that must be in the report; longest first. */
  List<String> wanted() {
    head();
    vigil.path("conductors").forEach(this::conductor);
    if (vigil.has("incidents")) {
      want(
          "all, what came together counted once "
              + rateCells(vigil.path("incidents"), "/incidents/"));
    }
    vigil.path("together").forEach(t -> want(t.path("words").asText()));
    ruled.add("/together/words");
    vigil.path("trends").forEach(this::trend);
    common();
    return wanted.stream().sorted((a, b) -> b.length() - a.length()).toList();
  }

  /** Fields that have a value and no rule. */
  List<String> unruled() {
    Set<String> found = new LinkedHashSet<>();
    leaves("", vigil, found);
    found.removeAll(ruled);
    return new ArrayList<>(found);
  }

  private static void leaves(String path, JsonNode node, Set<String> found) {
    if (node.isArray()) {
      node.forEach(member -> leaves(path, member, found));
    } else if (node.isObject() && !path.equals("/names")) {
      node.fields().forEachRemaining(f -> leaves(path + "/" + f.getKey(), f.getValue(), found));
    } else if (!node.isNull()) {
      found.add(path);
    }
  }

  private void want(String text) {
    if (!text.isBlank()) {
      wanted.add(PdfWords.even(text));
    }
  }

  private void rule(String... paths) {
    ruled.addAll(List.of(paths));
  }

  private Instant at(double seconds) {
    long start = vigil.path("started-unix-micros").asLong();
    return Instant.EPOCH.plus(start + Math.round(seconds * 1e6), ChronoUnit.MICROS);
  }

  /** Of the same day, as the jobs here are. */
  private String clock(double seconds) {
    return CLOCK.format(at(seconds).atZone(ZoneOffset.UTC));
  }

  private String full(double seconds) {
    return DAY.format(at(seconds).atZone(ZoneOffset.UTC));
  }

  private String name(String port) {
    String told = vigil.path("names").path(port).asText();
    return told.isEmpty() ? port : port + " " + told;
  }

  private void head() {
    want(
        "Of "
            + HEADING.format(at(0).atZone(ZoneOffset.UTC))
            + ", watching for "
            + vigil.path("program").asText());
    want(
        vigil.path("program").asText()
            + ", "
            + time(vigil.path("watched-seconds").asDouble() * 1e6)
            + " watched, from "
            + full(vigil.path("from-seconds").asDouble())
            + " to "
            + full(vigil.path("to-seconds").asDouble()));
    want(vigil.path("ending").asText());
    want(vigil.path("note").asText());
    vigil.path("conductors-watched").forEach(port -> want(name(port.asText())));
    JsonNode board = vigil.path("board");
    want(
        board.path("agent").asText().equals("simulated")
            ? "described as revision " + board.path("revision").asText()
            : "its program " + board.path("agent").asText());
    want(
        board.path("self-check").asText().isEmpty()
            ? "its self-check not told"
            : "its self-check " + board.path("self-check").asText());
    rule(
        "/returned",
        "/program",
        "/note",
        "/started-unix-micros",
        "/from-seconds",
        "/to-seconds",
        "/names");
    rule("/watched-seconds", "/ending", "/conductors-watched");
    rule("/board/revision", "/board/agent", "/board/self-check");
    JsonNode gaps = vigil.path("not-watched");
    if (!gaps.isEmpty()) {
      want(time(vigil.path("unwatched-seconds").asDouble() * 1e6) + " in " + gaps.size() + " gap");
    }
    for (JsonNode gap : gaps) {
      double from = gap.path("from-seconds").asDouble();
      want(clock(from) + " for " + time((gap.path("to-seconds").asDouble() - from) * 1e6) + ": ");
      String reason = gap.path("reason").asText();
      want(reason.equals("missing") ? "no samples came" : reason);
    }
    rule("/unwatched-seconds", "/not-watched/from-seconds", "/not-watched/to-seconds");
    rule("/not-watched/reason", "/marks/at-seconds", "/marks/text");
    for (JsonNode mark : vigil.path("marks")) {
      double at = mark.path("at-seconds").asDouble();
      want(clock(at) + " (" + since(at) + "): " + mark.path("text").asText());
    }
    vigil.path("findings").forEach(f -> want(f.path("words").asText()));
    vigil.path("statement").forEach(s -> want(s.path("words").asText()));
    vigil.path("words").forEach(s -> want(s.asText()));
    rule("/findings/words", "/statement/words", "/words");
  }

  private String rateCells(JsonNode rate, String path) {
    rule(path + "events", path + "seconds", path + "per-hour", path + "per-hour-95");
    rule(path + "excluded-per-hour");
    return rate.path("events").asLong()
        + " "
        + time(rate.path("seconds").asDouble() * 1e6)
        + " "
        + two(rate.path("per-hour").asDouble())
        + " ("
        + two(rate.path("per-hour-95").path(0).asDouble())
        + " to "
        + two(rate.path("per-hour-95").path(1).asDouble())
        + ")";
  }

  private void conductor(JsonNode of) {
    String who = of.path("conductors").isEmpty() ? "" : who(of);
    String cells = rateCells(of.path("rate"), "/conductors/rate/");
    rule("/conductors/shorter-than-a-tick", "/conductors/cut");
    rule("/conductors/longest-least-micros", "/conductors/longest-most-micros");
    rule("/conductors/total-least-micros", "/conductors/total-most-micros");
    rule("/conductors/first-seconds", "/conductors/last-seconds", "/conductors/words");
    rule("/conductors/rhythm/manner", "/conductors/rhythm/chance", "/conductors/rhythm/groups");
    rule("/conductors/rhythm/period/seconds", "/conductors/rhythm/period/half-step-seconds");
    rule("/conductors/rhythm/period/chance", "/conductors/marks/events-after-one");
    rule("/conductors/marks/expected-by-chance", "/conductors/marks/chance");
    rule("/conductors/chance-of-seeing", "/conductors/chance-of-seeing-for-micros");
    for (String each : List.of("shorter", "to-3-ms", "to-30-ms", "to-300-ms", "to-1-minute")) {
      rule("/conductors/o62-classes/" + each);
    }
    rule("/conductors/o62-classes/longer");
    if (of.path("rate").path("events").asLong() == 0) {
      want(who + cells);
      if (of.path("happening").asText().equals("opening")) {
        double hourly = of.path("rate").path("excluded-per-hour").asDouble();
        want("more often than " + often(hourly));
      }
      return;
    }
    happened(of, who, cells);
  }

  private String who(JsonNode of) {
    String after =
        switch (of.path("happening").asText()) {
          case "drop-out" -> ", dropping its call ";
          case "stray-call" -> ", calling for a moment ";
          default -> " ";
        };
    // A touch of two is named by more words than the ports.
    String port = of.path("conductors").path(0).asText();
    if (port.equals(vigil.path("returned").asText())) {
      return name(port) + ", the one that all come back through, or the plug itself ";
    }
    return of.path("conductors").size() == 1 && of.path("one-of").isEmpty()
        ? name(port) + after
        : "";
  }

  private void happened(JsonNode of, String who, String cells) {
    want(
        who
            + cells
            + " "
            + between(of.path("longest-least-micros"), of.path("longest-most-micros"))
            + " "
            + between(of.path("total-least-micros"), of.path("total-most-micros"))
            + " "
            + of.path("shorter-than-a-tick").asLong()
            + " / "
            + of.path("cut").asLong());
    JsonNode rhythm = of.path("rhythm");
    JsonNode period = rhythm.path("period");
    JsonNode marks = of.path("marks");
    want(
        who
            + rhythm.path("manner").asText().replace('-', ' ')
            + ", "
            + chance(rhythm.path("chance").asDouble())
            + " "
            + rhythm.path("groups").asLong()
            + " "
            + (period.isMissingNode()
                ? "none seen"
                : time(period.path("seconds").asDouble() * 1e6)
                    + " \u00b1 "
                    + time(period.path("half-step-seconds").asDouble() * 1e6)
                    + ", "
                    + chance(period.path("chance").asDouble()))
            + " "
            + marks.path("events-after-one").asLong()
            + " of "
            + of.path("rate").path("events").asLong()
            + " "
            + two(marks.path("expected-by-chance").asDouble())
            + ", "
            + chance(marks.path("chance").asDouble()));
    double first = of.path("first-seconds").asDouble();
    double last = of.path("last-seconds").asDouble();
    want(
        of.path("rate").path("events").asLong() == 1
            ? "at " + clock(first)
            : "first at " + clock(first) + ", last at " + clock(last));
    of.path("words").forEach(line -> want(line.asText()));
    if (of.has("chance-of-seeing")) {
      want("touches of " + time(of.path("chance-of-seeing-for-micros").asDouble()) + " ");
      want("are seen with " + chance(of.path("chance-of-seeing").asDouble()));
    }
    classes(of.path("o62-classes"), of.path("happening").asText());
  }

  private void classes(JsonNode classes, String happening) {
    if (!happening.equals("opening")) {
      return;
    }
    String[][] names = {
      {"shorter", "less than 0.3 ms"},
      {"to-3-ms", "0.3 to 3 ms"},
      {"to-30-ms", "3 to 30 ms"},
      {"to-300-ms", "30 to 300 ms"},
      {"to-1-minute", "0.3 s to 1 min"},
      {"longer", "1 min and more"}
    };
    for (String[] each : names) {
      if (classes.path(each[0]).asLong() > 0) {
        want(classes.path(each[0]).asLong() + " of " + each[1]);
      }
    }
  }

  private void trend(JsonNode of) {
    String course = of.path("course").asText().replace('-', ' ');
    want(
        name(of.path("conductor").asText())
            + " "
            + expanded(of.path("resistance"), 1, "ohm")
            + " "
            + of.path("readings").asLong()
            + " / "
            + of.path("without-value").asLong()
            + " "
            + String.format(
                Locale.ROOT,
                "%.5f to %.5f",
                of.path("least-ohm").asDouble(),
                of.path("greatest-ohm").asDouble()));
    want(
        name(of.path("conductor").asText())
            + " "
            + course
            + ", "
            + chance(of.path("chance").asDouble())
            + " "
            + expanded(of.path("change"), 1000, "mohm")
            + (of.has("change-seconds") ? ", " + clock(of.path("change-seconds").asDouble()) : "")
            + " "
            + expanded(of.path("per-hour"), 1000, "mohm"));
    for (String quantity : List.of("resistance", "change", "per-hour")) {
      for (String part : List.of("value", "standard-uncertainty", "unit")) {
        rule("/trends/" + quantity + "/" + part);
      }
    }
    rule("/trends/readings", "/trends/without-value", "/trends/least-ohm", "/trends/greatest-ohm");
    rule("/trends/course", "/trends/chance", "/trends/change-seconds", "/trends/words");
    rule("/trends/alarm/at-seconds", "/trends/alarm/since-seconds");
    of.path("words").forEach(line -> want(line.asText()));
    if (of.has("alarm")) {
      want("at " + clock(of.path("alarm").path("at-seconds").asDouble()));
      want("about " + clock(of.path("alarm").path("since-seconds").asDouble()));
    }
  }

  private void common() {
    if (!vigil.has("false-alarm-days")) {
      return;
    }
    want(
        String.format(
            Locale.ROOT,
            "once in %.0f days of a conductor's watch, on average (CUSUM, blocks of %s;",
            vigil.path("false-alarm-days").asDouble(),
            time(vigil.path("block-seconds").asDouble() * 1e6)));
    JsonNode change = vigil.path("common-change");
    if (change.isObject()) {
      // In a sentence, as the standard uncertainty.
      String figure = quantity(change, 100, 1, "%");
      want("All together changed by " + figure);
      if (words().contains("as copper does")) {
        want(
            String.format(
                Locale.ROOT, "by %.1f K", Math.abs(vigil.path("common-kelvin").asDouble())));
      }
    }
    rule("/false-alarm-days", "/block-seconds", "/common-change/value", "/common-kelvin");
    rule("/common-change/standard-uncertainty", "/common-change/unit");
  }

  private String words() {
    return vigil.path("words").toString();
  }

  private static String expanded(JsonNode quantity, double scale, String unit) {
    return quantity.isObject() ? quantity(quantity, scale, 2, unit) : "";
  }

  /** GUM 7.2.6: two digits of the uncertainty, the value to the same place. */
  private static String quantity(JsonNode quantity, double scale, double k, String unit) {
    double value = scale * quantity.path("value").asDouble();
    double u = k * scale * quantity.path("standard-uncertainty").asDouble();
    BigDecimal rounded = new BigDecimal(u).round(new MathContext(2, RoundingMode.HALF_UP));
    int places = Math.max(0, rounded.scale() + 2 - rounded.precision());
    return new BigDecimal(value).setScale(places, RoundingMode.HALF_UP).toPlainString()
        + " \u00b1 "
        + rounded.setScale(places, RoundingMode.HALF_UP).toPlainString()
        + " "
        + unit;
  }

  /** At least so often, by the day where an hour would be below a fifth. */
  private static String often(double hourly) {
    return hourly < 0.2 ? two(24 * hourly) + " a day" : two(hourly) + " an hour";
  }

  static String two(double value) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(2, RoundingMode.HALF_UP));
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }

  private static String chance(double chance) {
    return 100 * chance < 0.001 ? "below 0.001 %" : two(100 * chance) + " %";
  }

  private static String since(double seconds) {
    long whole = (long) Math.floor(seconds);
    return String.format("%d:%02d:%02d", whole / 3600, whole / 60 % 60, whole % 60);
  }

  private static String between(JsonNode least, JsonNode most) {
    if (least.asDouble() <= 0) {
      return "less than " + time(most.asDouble());
    }
    String low = time(least.asDouble());
    String high = time(most.asDouble());
    String[] l = low.split(" ");
    String[] h = high.split(" ");
    boolean same = l.length == 2 && h.length == 2 && l[1].equals(h[1]);
    return low.equals(high) ? low : (same ? l[0] : low) + " to " + high;
  }

  static String time(double micros) {
    double ms = micros / 1e3;
    double s = micros / 1e6;
    if (ms < 1) {
      return places(micros, 0) + " us";
    } else if (s < 1) {
      return places(ms, ms < 10 ? 1 : 0) + " ms";
    } else if (s < 120) {
      return places(s, s < 10 ? 2 : 1) + " s";
    } else if (s < 3600) {
      return places(s / 60, 1) + " min";
    }
    long minutes = Math.round(s / 60);
    return minutes < 48 * 60
        ? minutes / 60 + " h " + minutes % 60 + " min"
        : minutes / 1440 + " d " + minutes / 60 % 24 + " h";
  }

  private static String places(double x, int places) {
    return new BigDecimal(x).setScale(places, RoundingMode.HALF_UP).toPlainString();
  }
}
