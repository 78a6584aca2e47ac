package bellwire.app.vigil;

import static bellwire.app.vigil.VigilFigures.between;
import static bellwire.app.vigil.VigilFigures.chance;
import static bellwire.app.vigil.VigilFigures.time;
import static bellwire.app.vigil.VigilFigures.two;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.analysis.vigil.ConductorSummary;
import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.Happening;
import bellwire.analysis.vigil.Interval;
import bellwire.analysis.vigil.Period;
import bellwire.analysis.vigil.PoissonRate;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.VigilSummary;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A vigil's figures, a line for each conductor or pair.
 *
 * @param title what they are of
 * @param head a name for each column
 */
public record VigilGrid(String title, List<String> head, List<List<String>> rows) {
  private static final double HOUR = 3600;

  /** Coverage factor of what stands after ±: some 95 % (GUM 6.3.3). */
  private static final double K = 2;

  /** None where nothing was counted and nothing read. */
  public static List<VigilGrid> of(StoredVigil vigil, ZoneId zone) {
    VigilNames names = VigilText.namesOf(vigil);
    VigilClock clock = new VigilClock(vigil.row(), zone);
    VigilWords words = new VigilWords(names, clock, vigil.watch());
    List<VigilGrid> all = new ArrayList<>();
    vigil
        .events()
        .ifPresent(
            summary -> {
              all.add(events(words, summary));
              if (summary.incidents().events() > 0) {
                all.add(manner(words, summary.conductors()));
              }
            });
    vigil
        .trend()
        .ifPresent(
            t -> {
              TrendWords said = new TrendWords(names, clock, t);
              all.add(resistances(said, t));
              all.add(courses(clock, said, t));
            });
    return all;
  }

  private static VigilGrid events(VigilWords words, VigilSummary summary) {
    List<List<String>> rows = new ArrayList<>();
    PoissonRate all = summary.incidents();
    rows.add(
        List.of(
            "all, what came together counted once",
            Long.toString(all.events()),
            time(all.seconds() * 1e6),
            perHour(all),
            "",
            "",
            ""));
    for (ConductorSummary of : summary.conductors()) {
      boolean none = of.count() == 0;
      rows.add(
          List.of(
              words.who(of.subject()) + happening(of.subject().happening()),
              Long.toString(of.count()),
              time(of.rate().seconds() * 1e6),
              perHour(of.rate()),
              none ? "" : between(of.longestLeastMicros(), of.longestMostMicros()),
              none ? "" : between(of.totalLeastMicros(), of.totalMostMicros()),
              none ? "" : of.brief() + " / " + of.cut()));
    }
    return new VigilGrid(
        "How often, how long",
        List.of(
            "conductor",
            "times",
            "watched",
            "an hour (95 %)",
            "the longest",
            "all together",
            "under 1 ms / cut off"),
        rows);
  }

  /** How they came: of those to which something happened. */
  private static VigilGrid manner(VigilWords words, List<ConductorSummary> all) {
    List<List<String>> rows = new ArrayList<>();
    for (ConductorSummary of : all) {
      if (of.count() > 0) {
        rows.add(
            List.of(
                words.who(of.subject()) + happening(of.subject().happening()),
                plain(of.rhythm().manner()) + ", " + chance(of.rhythm().chance()),
                Integer.toString(of.rhythm().groups()),
                of.rhythm().period().map(VigilGrid::cycle).orElse("none seen"),
                of.marks().near() + " of " + of.count(),
                two(of.marks().expected()) + ", " + chance(of.marks().chance())));
      }
    }
    return new VigilGrid(
        "How they came",
        List.of(
            "conductor",
            "manner, by chance",
            "groups",
            "cycle, by chance",
            "within 2 s after a mark",
            "expected, so many by chance"),
        rows);
  }

  private static String cycle(Period of) {
    return time(of.periodMicros()) + " \u00b1 " + time(of.uMicros()) + ", " + chance(of.chance());
  }

  private static String plain(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private static String happening(Happening happening) {
    return switch (happening) {
      case OPENING, TOUCH -> "";
      case DROP_OUT -> ", dropping its call";
      case STRAY_CALL -> ", calling for a moment";
    };
  }

  private static String perHour(PoissonRate rate) {
    Interval of = rate.perSecond(VigilFigures.CONFIDENCE);
    return two(rate.perSecond() * HOUR)
        + " ("
        + two(of.low() * HOUR)
        + " to "
        + two(of.high() * HOUR)
        + ")";
  }

  private static VigilGrid resistances(TrendWords words, TrendSummary summary) {
    List<List<String>> rows = new ArrayList<>();
    for (ConductorTrend of : summary.conductors()) {
      rows.add(
          List.of(
              words.who(of),
              expanded(of.mean(), 1),
              of.readings() + " / " + of.open(),
              ohms(of.leastOhms()) + " to " + ohms(of.greatestOhms())));
    }
    return new VigilGrid(
        "Resistances",
        List.of("conductor", "mean", "readings / without a value", "single readings, ohm"),
        rows);
  }

  /** Of its own, what all share taken off. */
  private static VigilGrid courses(VigilClock clock, TrendWords words, TrendSummary summary) {
    List<List<String>> rows = new ArrayList<>();
    for (ConductorTrend of : summary.conductors()) {
      rows.add(
          List.of(
              words.who(of),
              plain(of.course()) + ", " + chance(of.chance()),
              expanded(of.change(), 1000)
                  + (of.changeMicros() >= 0 ? ", " + clock.at(of.changeMicros()) : ""),
              expanded(of.perHour(), 1000)));
    }
    return new VigilGrid(
        "How they went", List.of("conductor", "course, by chance", "change", "an hour"), rows);
  }

  private static String ohms(double ohms) {
    return Double.isFinite(ohms) ? String.format(Locale.ROOT, "%.5f", ohms) : "?";
  }

  /** With U = 2u. */
  private static String expanded(Quantity of, double scale) {
    if (!Double.isFinite(of.value())) {
      return "";
    }
    return new Quantity(scale * of.value(), K * scale * of.u(), scale == 1 ? "ohm" : "mohm")
        .toString();
  }
}
