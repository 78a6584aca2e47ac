package bellwire.app.vigil;

import static bellwire.app.vigil.VigilFigures.between;
import static bellwire.app.vigil.VigilFigures.chance;
import static bellwire.app.vigil.VigilFigures.excluded;
import static bellwire.app.vigil.VigilFigures.rate;
import static bellwire.app.vigil.VigilFigures.time;
import static bellwire.app.vigil.VigilFigures.times;
import static bellwire.app.vigil.VigilFigures.two;

import bellwire.analysis.vigil.ConductorSummary;
import bellwire.analysis.vigil.DisturbanceLimit;
import bellwire.analysis.vigil.Happening;
import bellwire.analysis.vigil.InterruptionClass;
import bellwire.analysis.vigil.Manner;
import bellwire.analysis.vigil.MarkEffect;
import bellwire.analysis.vigil.Period;
import bellwire.analysis.vigil.PoissonRate;
import bellwire.analysis.vigil.Simultaneous;
import bellwire.analysis.vigil.Subject;
import bellwire.analysis.vigil.Together;
import bellwire.analysis.vigil.TouchLatch;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.analysis.vigil.VigilSummary;
import bellwire.analysis.vigil.Watch;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What happened in a vigil, in sentences that carry their uncertainty. */
final class VigilWords {
  private static final long TICK_MICROS = 1000;
  private static final double HOUR_SECONDS = 3600;

  private final VigilNames names;
  private final VigilClock clock;
  private final Watch watch;

  VigilWords(VigilNames names, VigilClock clock, Watch watch) {
    this.names = names;
    this.clock = clock;
    this.watch = watch;
  }

  /** 'P3 red', 'P3 with one of P1 or P2', 'P1, the returned one, or the plug'. */
  String who(Subject subject) {
    String known = names.all(subject.ports());
    if (subject.happening() == Happening.TOUCH) {
      boolean one = Integer.bitCount(subject.ports()) == 1;
      if (subject.ports() == 0) {
        return "two of " + names.all(subject.others());
      }
      return subject.others() == 0
          ? known
          : known
              + (one ? " with one of " : " together, or with one of ")
              + names.oneOf(subject.others());
    }
    if (subject.ports() == 0) {
      return names.oneOf(subject.others());
    }
    boolean returned =
        watch.program() == VigilProgram.CONTINUITY && subject.ports() == 1 << watch.returned();
    return returned ? known + ", the one that all come back through, or the plug itself" : known;
  }

  private static String did(Subject subject) {
    return switch (subject.happening()) {
      case OPENING -> "opened";
      case TOUCH -> "touched";
      case DROP_OUT -> "dropped its call";
      case STRAY_CALL -> "called for a moment";
    };
  }

  /** 'P3 red opened 14 times, 0.58 an hour (0.32 to 0.98 at 95 %), for up to 12 ms'. */
  String headline(ConductorSummary of) {
    StringBuilder words = new StringBuilder(who(of.subject()));
    words.append(' ').append(did(of.subject())).append(' ').append(times(of.count()));
    boolean bursts = of.rhythm().manner() == Manner.IN_BURSTS;
    words.append(bursts ? ", in " + bursts(of) : "");
    words.append(", ").append(rate(of.independent()));
    words.append(
        of.brief() == of.count()
            ? ", for less than " + time(TICK_MICROS)
            : ", for up to " + time(of.longestMostMicros()));
    of.rhythm()
        .period()
        .ifPresent(
            p ->
                words
                    .append(", every ")
                    .append(time(p.periodMicros()))
                    .append(cause(p.periodMicros() / 1e6)));
    if (of.marks().explains()) {
      words.append(", mostly after a mark");
    }
    return words.toString();
  }

  /** What is known of it, sentence by sentence. */
  List<String> details(ConductorSummary of) {
    List<String> all = new ArrayList<>();
    all.add(howOften(of));
    all.add(howLong(of));
    if (of.subject().happening() == Happening.TOUCH) {
      all.add(seen(of));
    }
    rhythm(of, all);
    marks(of.marks(), all);
    if (of.cut() > 0) {
      all.add(
          of.cut() + " of them may have lasted longer: what came before or after was not watched");
    }
    return all;
  }

  private static String bursts(ConductorSummary of) {
    return of.rhythm().groups() + (of.rhythm().groups() == 1 ? " burst" : " bursts");
  }

  private String howOften(ConductorSummary of) {
    String where =
        switch (of.subject().happening()) {
          case DROP_OUT -> " of call";
          case STRAY_CALL -> " without a call";
          case OPENING, TOUCH -> "";
        };
    String over = " in " + time(of.rate().seconds() * 1e6) + where;
    if (of.rhythm().manner() == Manner.IN_BURSTS) {
      return bursts(of)
          + over
          + ": "
          + rate(of.independent())
          + "; within a burst no interval holds";
    }
    return rate(of.rate()) + over;
  }

  private String howLong(ConductorSummary of) {
    String when =
        of.count() == 1
            ? "at " + clock.at(of.firstMicros())
            : "first at " + clock.at(of.firstMicros()) + ", last at " + clock.at(of.lastMicros());
    String brief = of.brief() + " for less than " + time(TICK_MICROS) + "; ";
    if (of.brief() == of.count()) {
      return when;
    }
    String longest = between(of.longestLeastMicros(), of.longestMostMicros());
    return of.count() == 1
        ? "it lasted " + longest + ", " + when
        : "the longest "
            + longest
            + ", all together "
            + between(of.totalLeastMicros(), of.totalMostMicros())
            + "; "
            + (of.brief() > 0 ? brief : "")
            + when;
  }

  private static String seen(ConductorSummary of) {
    PoissonRate all = of.rate().seenWith(Math.max(1e-6, of.chanceOfSeeing()));
    return "touches of "
        + time(of.assumedMicros())
        + (of.brief() == of.count() ? " (assumed: latches tell no length)" : " (their middle)")
        + " are seen with "
        + chance(of.chanceOfSeeing())
        + (of.chanceOfSeeing() > 0.99 ? "" : "; corrected for that " + rate(all));
  }

  private static void rhythm(ConductorSummary of, List<String> all) {
    String by = " (by chance " + chance(of.rhythm().chance()) + ")";
    switch (of.rhythm().manner()) {
      case IN_BURSTS -> all.add("they come in bursts" + by);
      case EVENLY -> all.add("they come evenly" + by);
      case AT_RANDOM -> {
        if (of.rhythm().period().isEmpty()) {
          all.add("they come at random, as far as so many tell");
        }
      }
      case TOO_FEW -> {}
    }
    of.rhythm().period().ifPresent(p -> all.add(period(p, of)));
  }

  private static String period(Period period, ConductorSummary of) {
    String what = of.rhythm().manner() == Manner.IN_BURSTS ? "the bursts keep to" : "they keep to";
    return what
        + " a cycle of "
        + time(period.periodMicros())
        + " \u00b1 "
        + time(period.uMicros())
        + cause(period.periodMicros() / 1e6)
        + " (by chance "
        + chance(period.chance())
        + ", all cycles looked for)";
  }

  /** What has such a cycle. Common practice, no source. */
  private static String cause(double seconds) {
    if (seconds < 1) {
      return ", as a fan or a motor shakes";
    }
    if (seconds >= 180 && seconds <= 3600) {
      return ", as a compressor or a burner cycles";
    }
    if (seconds >= 20 * HOUR_SECONDS && seconds <= 28 * HOUR_SECONDS) {
      return ", as a day warms and cools";
    }
    return "";
  }

  private static void marks(MarkEffect marks, List<String> all) {
    if (marks.marks() == 0 || marks.events() == 0) {
      return;
    }
    if (marks.near() == 0) {
      all.add("none came within 2 s after a mark");
      return;
    }
    String words =
        marks.near()
            + " of "
            + marks.events()
            + " came within 2 s after a mark, where "
            + two(marks.expected())
            + " would by chance";
    if (marks.explains()) {
      all.add(
          words
              + ": what was done at the marks brings it on (chance "
              + chance(marks.chance())
              + ")");
    } else if (marks.follows()) {
      all.add(words + ": the marks bring on some (chance " + chance(marks.chance()) + "), not all");
    } else {
      all.add(
          words
              + ": the marks do not explain it (so many by chance "
              + chance(marks.chance())
              + ")");
    }
  }

  /** What went together. */
  String together(Simultaneous set) {
    String who = names.all(set.ports());
    String words = who + " opened together " + times(set.count());
    return switch (set.kind()) {
      case COMMON, ALL ->
          words
              + (set.kind() == Together.Kind.ALL
                  ? ", all there are: the plug, or the board"
                  : ", all but "
                      + names.all(set.suspect())
                      + ": it is that one, its clamps, or the plug");
      default ->
          words + ", where " + two(set.expected()) + " would by chance: look where they meet";
    };
  }

  /** What the classes of O.62 say, of those that a reading found. */
  String classes(ConductorSummary of) {
    List<String> words = new ArrayList<>();
    if (of.brief() > 0) {
      words.add(of.brief() + " under 1 ms");
    }
    for (InterruptionClass each : InterruptionClass.values()) {
      long count = of.classes().getOrDefault(each, 0L);
      if (count > 0) {
        words.add(count + " of " + named(each));
      }
    }
    return "classes of ITU-T O.62, by what they lasted at least: " + String.join(", ", words);
  }

  private static String named(InterruptionClass each) {
    return switch (each) {
      case SHORTER -> "less than 0.3 ms";
      case TO_3_MS -> "0.3 to 3 ms";
      case TO_30_MS -> "3 to 30 ms";
      case TO_300_MS -> "30 to 300 ms";
      case TO_1_MINUTE -> "0.3 s to 1 min";
      case LONGER -> "1 min and more";
    };
  }

  /** Nothing happened: what that excludes, and what it doesn't. */
  List<String> nothing(VigilSummary summary) {
    double seconds = summary.incidents().seconds();
    String over = " in " + time(seconds * 1e6);
    return switch (watch.program()) {
      case CONTINUITY ->
          List.of(
              "Nothing opened" + over + ".",
              "That excludes, at 95 %, an opening of a given conductor more often than "
                  + excluded(seconds)
                  + ". Rarer ones are not excluded.");
      case TOUCH ->
          List.of(
              "Nothing touched" + over + ".",
              "That excludes, at 95 %, touches of 10 ms more often than "
                  + excluded(seconds * summary.chanceOfSeeing(10_000))
                  + ", of 1 ms "
                  + excluded(seconds * summary.chanceOfSeeing(1000))
                  + ", of "
                  + time(latchMicros(summary))
                  + " "
                  + excluded(seconds * summary.chanceOfSeeing(latchMicros(summary)))
                  + ". Rarer ones are not excluded.");
      case CALLS -> calls(summary, over);
      case TREND -> List.of();
    };
  }

  private List<String> calls(VigilSummary summary, String over) {
    List<String> all = new ArrayList<>();
    all.add("No call dropped out, and none came for a moment only," + over + ".");
    for (ConductorSummary each : summary.conductors()) {
      double seconds = each.rate().seconds();
      boolean drop = each.subject().happening() == Happening.DROP_OUT;
      all.add(
          names.all(each.subject().ports())
              + (drop ? " called for " : " rested for ")
              + time(seconds * 1e6)
              + ": excludes, at 95 %, a "
              + (drop ? "drop-out" : "stray call")
              + " more often than "
              + excluded(seconds)
              + ".");
    }
    return all;
  }

  private static double latchMicros(VigilSummary summary) {
    return summary.latch().map(TouchLatch::latchMicros).orElse(0.0);
  }

  /** What could not have been seen. */
  List<String> limits(VigilSummary summary) {
    if (watch.program() == VigilProgram.TOUCH) {
      return List.of(
          "A touch shorter than "
              + time(latchMicros(summary))
              + " does not show; a short one shows only in some codes, with the chances told.");
    }
    if (watch.program() != VigilProgram.CONTINUITY) {
      return List.of();
    }
    double shortest = watch.shortestMicros();
    if (Double.isNaN(shortest)) {
      return List.of(
          "The cable's capacitance is not known: openings below some 30 us may be hidden (60 m).");
    }
    StringBuilder words = new StringBuilder();
    words.append("An opening shorter than ").append(time(Math.ceil(shortest)));
    words.append(" does not show on this cable.");
    for (DisturbanceLimit limit : DisturbanceLimit.values()) {
      if (!limit.read() || limit.canBeShown(shortest)) {
        continue;
      }
      words.append(
          String.format(
              Locale.ROOT,
              " Nothing here passes or fails %s, which counts from %.0f ns.",
              limit.standard(),
              1000 * limit.durationMicros()));
      break;
    }
    return List.of(words.toString());
  }
}
