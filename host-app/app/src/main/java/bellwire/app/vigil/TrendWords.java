package bellwire.app.vigil;

import static bellwire.app.vigil.VigilFigures.chance;
import static bellwire.app.vigil.VigilFigures.time;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.Cusum;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.Unwatched;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** How resistances went, in sentences that carry their uncertainty. */
final class TrendWords {
  private static final double CLEAR = 3;

  private final VigilNames names;
  private final VigilClock clock;
  private final TrendSummary summary;

  TrendWords(VigilNames names, VigilClock clock, TrendSummary summary) {
    this.names = names;
    this.clock = clock;
    this.summary = summary;
  }

  String who(ConductorTrend of) {
    return summary.conductors().size() == 1
        ? names.all(summary.watch().ports()) + " together"
        : names.of(of.port());
  }

  /** Whether it needs to be looked at. */
  static boolean suspect(ConductorTrend of) {
    return of.open() > 0
        || of.alarm().isPresent()
        || of.course() == ConductorTrend.Course.STEP
        || of.course() == ConductorTrend.Course.SLOPE;
  }

  /** What a suspect one is looked at for: step, slope, alarm or open. */
  static String kind(ConductorTrend of) {
    return switch (of.course()) {
      case STEP -> "step";
      case SLOPE -> "slope";
      case TOO_FEW, STEADY -> of.alarm().isPresent() ? "alarm" : "open";
    };
  }

  /** 'P3 red rose by 12.4 ± 0.3 mohm at once, about 14:02:10'. */
  String headline(ConductorTrend of) {
    String level = who(of) + ", " + of.mean() + ", ";
    String moved = of.change().value() > 0 ? "rose" : "fell";
    return switch (of.course()) {
      case TOO_FEW -> level + "was read too seldom to tell more";
      case STEADY -> level + "kept its level" + (of.open() > 0 ? ", but for " + without(of) : "");
      case STEP ->
          level
              + moved
              + " by "
              + milliohms(of.change())
              + " at once, about "
              + clock.at(of.changeMicros())
              + " (by chance "
              + chance(of.chance())
              + ")";
      case SLOPE ->
          level
              + moved
              + " all the time, by "
              + milliohms(of.perHour())
              + " an hour (by chance "
              + chance(of.chance())
              + ")";
    };
  }

  /** Those that kept their level, and what slope that excludes. */
  Optional<String> steady() {
    int mask = 0;
    double most = 0;
    for (ConductorTrend each : summary.conductors()) {
      if (!suspect(each) && each.course() == ConductorTrend.Course.STEADY) {
        mask |= 1 << each.port();
        most = Math.max(most, Math.abs(each.perHour().value()) + 2 * each.perHour().u());
      }
    }
    if (mask == 0) {
      return Optional.empty();
    }
    String who =
        summary.conductors().size() == 1 ? names.all(summary.watch().ports()) : names.all(mask);
    return Optional.of(
        who
            + " kept "
            + (Integer.bitCount(mask) == 1 ? "its" : "their")
            + " level: that excludes, at 95 %, a rise or fall of more than "
            + VigilFigures.two(1000 * most)
            + " mohm an hour for each.");
  }

  List<String> details(ConductorTrend of) {
    List<String> all = new ArrayList<>();
    if (of.readings() > 0) {
      all.add(
          String.format(
              Locale.ROOT,
              "least %.5f ohm at %s, greatest %.5f ohm at %s, single readings",
              of.leastOhms(),
              clock.at(of.leastMicros()),
              of.greatestOhms(),
              clock.at(of.greatestMicros())));
    }
    if (of.open() > 0) {
      all.add(without(of) + ": it was open then, or far from what was expected");
    }
    of.alarm()
        .ifPresent(
            a ->
                all.add(
                    "alarm "
                        + (a.side() == Cusum.Alarm.UP ? "upwards" : "downwards")
                        + " at "
                        + clock.at(a.micros())
                        + ", the change began about "
                        + clock.at(a.sinceMicros())));
    if (of.course() == ConductorTrend.Course.STEADY) {
      all.add(
          "slope "
              + new Quantity(1000 * of.perHour().value(), 1000 * of.perHour().u(), "mohm an hour")
              + "; a level or a slope that changes more is by chance "
              + chance(of.chance()));
    }
    return all;
  }

  /**
   * 'A voltage from outside was on the cable, 3 times, for 12 s in all: nothing was measured then',
   * a line for each that is known of rounds which show nothing.
   */
  List<String> nothing() {
    Map<String, List<Unwatched>> reasons = new LinkedHashMap<>();
    for (Unwatched each : summary.watch().unwatched()) {
      if (each.measured()) {
        reasons.computeIfAbsent(each.reason(), k -> new ArrayList<>()).add(each);
      }
    }
    List<String> all = new ArrayList<>();
    reasons.forEach(
        (reason, times) ->
            all.add(
                reason.substring(0, 1).toUpperCase(Locale.ROOT)
                    + reason.substring(1)
                    + (times.size() == 1 ? ", once, for " : ", " + times.size() + " times, for ")
                    + time(times.stream().mapToLong(u -> u.toMicros() - u.fromMicros()).sum())
                    + (times.size() == 1 ? "" : " in all")
                    + ": nothing was measured then"));
    return all;
  }

  /** What all did together, and how sure alarms are. */
  List<String> common() {
    List<String> all = new ArrayList<>();
    summary
        .common()
        .ifPresentOrElse(
            c -> all.add(shared(c)),
            () ->
                all.add(
                    summary.conductors().size() < 3
                        ? "With fewer than three resistances warmth can't be told from a joint: all"
                            + " rise with it, by 0.39 % a kelvin."
                        : "Too little was read to tell what all did together."));
    all.add(
        String.format(
            Locale.ROOT,
            "An alarm is false once in %.0f days of a conductor's watch, on average (CUSUM, blocks"
                + " of %s; the level and scatter of the first quarter, their own uncertainty"
                + " allowed for).",
            summary.falseAlarmDays(),
            time(summary.blockMicros())));
    return all;
  }

  private String shared(Quantity common) {
    String percent = new Quantity(100 * common.value(), 100 * common.u(), "%").toString();
    if (Math.abs(common.value()) < CLEAR * common.u()) {
      return "All together changed by " + percent + ": nothing that is clear.";
    }
    return String.format(
        Locale.ROOT,
        "All together changed by %s, as copper does that grows %s by %.1f K; that is taken off"
            + " above.",
        percent,
        common.value() > 0 ? "warmer" : "colder",
        Math.abs(summary.kelvin()));
  }

  private static String without(ConductorTrend of) {
    return of.open() + " of " + (of.open() + of.readings()) + " readings without a value";
  }

  private static String milliohms(Quantity ohms) {
    return new Quantity(1000 * Math.abs(ohms.value()), 1000 * ohms.u(), "mohm").toString();
  }
}
