package bellwire.app.vigil;

import bellwire.analysis.vigil.ConductorSummary;
import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.Happening;
import bellwire.analysis.vigil.Simultaneous;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilSummary;
import bellwire.app.job.Mark;
import bellwire.app.report.Paragraph;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * A vigil's statement, for a terminal: what was found first, then how sure, then the time drawn.
 */
public final class VigilText {
  private static final String TIME = "TIME";

  /**
   * How much is told one by one; the rest is counted.
   *
   * @param subjects conductors, or pairs, to which something happened
   * @param together sets of conductors
   */
  private record Most(int subjects, int together, int gaps, int marks) {
    static final Most TERMINAL = new Most(12, 6, 6, 8);
    static final Most REPORT = new Most(40, 20, 20, 60);
  }

  private final StoredVigil vigil;
  private final VigilNames names;
  private final VigilClock clock;
  private final VigilWords words;
  private final boolean classes;
  private final Most most;
  private final List<VigilStatement.Part> parts = new ArrayList<>();

  private VigilText(StoredVigil vigil, ZoneId zone, boolean classes, Most most) {
    this.vigil = vigil;
    this.most = most;
    this.classes = classes;
    names = new VigilNames(vigil.watch().program(), vigil.watched().names());
    clock = new VigilClock(vigil.row(), zone);
    words = new VigilWords(names, clock, vigil.watch());
  }

  /**
   * Lines of text.
   *
   * @param classes also count the classes of ITU-T O.62
   */
  public static List<String> lines(StoredVigil vigil, ZoneId zone, boolean classes) {
    VigilText text = new VigilText(vigil, zone, classes, Most.TERMINAL);
    text.write();
    List<String> out = new ArrayList<>();
    for (VigilStatement.Part part : text.parts) {
      if (!part.title().isEmpty()) {
        out.add("");
        out.add(part.title());
      }
      if (part.title().equals(TIME)) {
        out.addAll(new VigilLanes(vigil, text.names, text.clock).lines());
      }
      part.lines().forEach(l -> out.addAll(Paragraph.hanging(l.lead(), l.words())));
    }
    return out;
  }

  /** The same in parts and whole sentences, for what isn't a terminal. */
  public static VigilStatement statement(StoredVigil vigil, ZoneId zone) {
    VigilText text = new VigilText(vigil, zone, true, Most.REPORT);
    text.write();
    return new VigilStatement(text.parts);
  }

  /** One line for a list of vigils. */
  public static String line(bellwire.app.job.VigilRow row, ZoneId zone) {
    VigilClock clock = new VigilClock(row, zone);
    String end =
        row.ending()
            .map(
                e ->
                    ", " + VigilFigures.time(e.micros() - row.startedMicros()) + ", " + e.outcome())
            .orElse(", not ended: under way, or left");
    return String.format(
        Locale.ROOT,
        "%4d  %-10s from %s%s",
        row.id(),
        row.program(),
        clock.full(row.startedMicros()),
        end);
  }

  private void part(String title) {
    parts.add(new VigilStatement.Part(title, new ArrayList<>()));
  }

  private void write() {
    part("");
    say(
        "VIGIL " + vigil.row().id() + "   ",
        vigil.watched().program()
            + ", "
            + VigilFigures.time(vigil.watch().exposure().micros())
            + " watched, from "
            + clock.full(vigil.watch().fromMicros())
            + " to "
            + clock.full(vigil.watch().toMicros()));
    if (!vigil.watched().note().isEmpty()) {
      say("  ", vigil.watched().note());
    }
    say("  ", ending());
    part("STATEMENT");
    vigil.events().ifPresent(this::events);
    vigil.trend().ifPresent(this::trend);
    if (vigil.events().isEmpty() && vigil.trend().isEmpty()) {
      say("  ", "No round of resistances was read to its end.");
    }
    unwatched();
    detail();
    vigil.trend().ifPresent(this::trendDetail);
    part(TIME);
    markList();
  }

  private String ending() {
    return vigil
        .row()
        .ending()
        .map(e -> "ended at " + clock.full(e.micros()) + ": " + e.outcome())
        .orElse("not ended: under way, or left where a program or a board was stopped");
  }

  private void events(VigilSummary summary) {
    if (vigil.tooMany()) {
      say(
          "  ! ",
          "TOO MANY EVENTS to keep: all figures are of the time up to "
              + clock.at(vigil.watch().toMicros()));
    }
    if (summary.incidents().events() == 0) {
      words.nothing(summary).forEach(line -> say("  ", line));
    } else {
      int shown = 0;
      long others = 0;
      for (ConductorSummary each : summary.conductors()) {
        if (each.count() > 0) {
          if (shown++ < most.subjects()) {
            subject(each);
          } else {
            others += each.count();
          }
        }
      }
      if (others > 0) {
        say("  ", "and " + others + " more, of others: the JSON has them all");
      }
      together(summary);
      quiet(summary);
    }
    words.limits(summary).forEach(line -> say("  ", line));
  }

  private void subject(ConductorSummary of) {
    say("  ! ", words.headline(of) + ".");
  }

  private void detail() {
    List<ConductorSummary> happened =
        vigil.events().map(VigilSummary::conductors).orElse(List.of()).stream()
            .filter(each -> each.count() > 0)
            .limit(most.subjects())
            .toList();
    if (happened.isEmpty()) {
      return;
    }
    part("DETAIL");
    for (ConductorSummary of : happened) {
      say("  ", words.who(of.subject()) + ":");
      words.details(of).forEach(line -> say("    - ", line));
      if (classes && of.subject().happening() == Happening.OPENING) {
        say("    - ", words.classes(of));
      }
    }
  }

  private void together(VigilSummary summary) {
    int shown = 0;
    for (Simultaneous each : summary.together()) {
      if (shown++ < most.together()) {
        say("  ", words.together(each) + ".");
      }
    }
    if (shown > most.together()) {
      say("  ", "and " + (shown - most.together()) + " more sets of conductors together");
    }
  }

  /** Those to whom nothing happened, and what that excludes. */
  private void quiet(VigilSummary summary) {
    int quiet = 0;
    double seconds = Double.POSITIVE_INFINITY;
    for (ConductorSummary each : summary.conductors()) {
      if (each.count() == 0 && each.subject().happening() == Happening.OPENING) {
        quiet |= each.subject().ports();
        seconds = each.rate().seconds();
      }
    }
    if (quiet != 0) {
      say(
          "  ",
          names.all(quiet)
              + " did not open: excludes, at 95 %, more often than "
              + VigilFigures.excluded(seconds)
              + " for each.");
    }
  }

  private void trend(TrendSummary summary) {
    TrendWords say = new TrendWords(names, clock, summary);
    for (ConductorTrend each : summary.conductors()) {
      if (TrendWords.suspect(each)) {
        say("  ! ", say.headline(each) + ".");
      }
    }
    say.nothing().forEach(line -> say("  ! ", line + "."));
    say.steady().ifPresent(line -> say("  ", line));
    say.common().forEach(line -> say("  ", line));
  }

  private void trendDetail(TrendSummary summary) {
    TrendWords say = new TrendWords(names, clock, summary);
    part("DETAIL");
    for (ConductorTrend each : summary.conductors()) {
      say("  ", say.headline(each) + ":");
      say.details(each).forEach(line -> say("    - ", line));
    }
  }

  private void unwatched() {
    if (vigil.gaps().isEmpty()) {
      return;
    }
    part("NOT WATCHED");
    say(
        "  ",
        VigilFigures.time(vigil.unwatchedMicros())
            + " in "
            + vigil.gaps().size()
            + (vigil.gaps().size() == 1 ? " gap" : " gaps")
            + ", in which anything may have happened; no rate counts them:");
    List<Unwatched> longest = new ArrayList<>(vigil.gaps());
    longest.sort((a, b) -> Long.compare(length(b), length(a)));
    for (Unwatched gap : longest.subList(0, Math.min(most.gaps(), longest.size()))) {
      say(
          "  - ",
          clock.at(gap.fromMicros())
              + " for "
              + VigilFigures.time(length(gap))
              + ": "
              + (gap.reason().equals("missing") ? "no samples came" : gap.reason()));
    }
    if (longest.size() > most.gaps()) {
      say("  ", "and " + (longest.size() - most.gaps()) + " shorter ones");
    }
  }

  private static long length(Unwatched gap) {
    return gap.toMicros() - gap.fromMicros();
  }

  private void markList() {
    int shown = 0;
    for (Mark mark : vigil.marks()) {
      if (shown++ < most.marks()) {
        say(
            "  ^ ",
            clock.at(mark.micros()) + " (" + clock.since(mark.micros()) + "): " + mark.text());
      }
    }
    if (shown > most.marks()) {
      say("  ", "and " + (shown - most.marks()) + " more marks");
    }
  }

  private void say(String lead, String line) {
    parts.get(parts.size() - 1).lines().add(new VigilStatement.Line(lead, line));
  }

  static VigilNames namesOf(StoredVigil vigil) {
    Map<Integer, String> names = vigil.watched().names();
    return new VigilNames(vigil.watch().program(), names);
  }
}
