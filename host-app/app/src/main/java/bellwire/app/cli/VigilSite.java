package bellwire.app.cli;

import bellwire.app.report.Paragraph;
import java.io.PrintWriter;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;

/**
 * What a building without its heat has to be asked before it is left so.
 *
 * @param people who is in it meanwhile
 * @param coldest outdoors meanwhile, degrees Celsius
 * @param heatBy when the heat has to be back
 */
record VigilSite(String people, double coldest, ZonedDateTime heatBy) {
  private static final int MOST_WORDS = 200;
  private static final double LEAST_CELSIUS = -60;
  private static final double MOST_CELSIUS = 60;

  /** To land the conductors again and switch on. Common practice, no source. */
  private static final Duration BEFORE = Duration.ofMinutes(15);

  static final long LEAST_MICROS = 60_000_000;

  static final String SHORTENED =
      "The vigil ends 15 min before the heat has to be back, so that there is time to land the"
          + " conductors and switch on.";

  static final String TOO_LATE =
      "not begun: the heat has to be back within minutes, and landing the conductors takes 15 min";

  /** What was said on the command line; null where not. */
  record Said(@Nullable String people, @Nullable String coldest, @Nullable String heatBy) {}

  /** The next time that the clock shows it; empty for what is no time of day. */
  static Optional<ZonedDateTime> next(String typed, ZonedDateTime now) {
    try {
      LocalTime time =
          LocalTime.parse(typed.strip(), DateTimeFormatter.ofPattern("H:mm", Locale.ROOT));
      ZonedDateTime today = now.with(time);
      return Optional.of(today.isAfter(now) ? today : today.plusDays(1));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  static OptionalDouble celsius(String typed) {
    return Celsius.parse(typed, LEAST_CELSIUS, MOST_CELSIUS);
  }

  /** Asks for what was not said; null where nobody answers. */
  static @Nullable VigilSite ask(
      Said said, Answers answers, BooleanSupplier interrupted, PrintWriter out, ZonedDateTime now) {
    String people = said.people();
    while (people == null || people.isBlank()) {
      people = typed("Who is in the building meanwhile?", answers, interrupted, out);
      if (people == null) {
        return null;
      }
    }
    OptionalDouble coldest =
        said.coldest() == null ? OptionalDouble.empty() : celsius(said.coldest());
    while (coldest.isEmpty()) {
      String words =
          typed(
              "How cold will it be outdoors, at worst? [such as '8 C' or '46 F']",
              answers,
              interrupted,
              out);
      if (words == null) {
        return null;
      }
      coldest = celsius(words);
    }
    Optional<ZonedDateTime> heatBy =
        said.heatBy() == null ? Optional.empty() : next(said.heatBy(), now);
    while (heatBy.isEmpty()) {
      String words =
          typed("By when must the heat be back? [such as '17:30']", answers, interrupted, out);
      if (words == null) {
        return null;
      }
      heatBy = next(words, now);
    }
    return new VigilSite(
        people.substring(0, Math.min(people.length(), MOST_WORDS)),
        coldest.getAsDouble(),
        heatBy.get());
  }

  private static @Nullable String typed(
      String question, Answers answers, BooleanSupplier interrupted, PrintWriter out) {
    Paragraph.hanging("  ", question).forEach(out::println);
    out.flush();
    return answers.await(interrupted);
  }

  boolean frost() {
    return coldest < VigilCautions.FROST_CELSIUS;
  }

  /** How long a vigil may last: to land the conductors and switch on takes its time too. */
  long mostMicros(ZonedDateTime now) {
    return Duration.between(now, heatBy.minus(BEFORE)).toNanos() / 1000;
  }

  /** As the job file keeps it. */
  String note() {
    return String.format(
        Locale.ROOT,
        "without heat; in the building: %s; outdoors %.0f C at the coldest; %s%s",
        people,
        coldest,
        HeatBy.KEY,
        heatBy.toOffsetDateTime().withNano(0));
  }
}
