package bellwire.app.vigil;

import bellwire.app.report.Celsius;
import bellwire.app.report.VigilCautions;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What a building without its heat has to be asked before it is left so.
 *
 * @param people who is in it meanwhile
 * @param coldest outdoors meanwhile, degrees Celsius
 * @param heatBy when the heat has to be back
 */
public record VigilSite(String people, double coldest, ZonedDateTime heatBy) {
  private static final int MOST_WORDS = 200;
  private static final double LEAST_CELSIUS = -60;
  private static final double MOST_CELSIUS = 60;

  /** To land the conductors again and switch on. Common practice, no source. */
  private static final Duration BEFORE = Duration.ofMinutes(15);

  public static final long LEAST_MICROS = 60_000_000;

  public static final String SHORTENED =
      "The vigil ends 15 min before the heat has to be back, so that there is time to land the"
          + " conductors and switch on.";

  public static final String TOO_LATE =
      "not begun: the heat has to be back within minutes, and landing the conductors takes 15 min";

  public VigilSite {
    people = people.substring(0, Math.min(people.length(), MOST_WORDS));
  }

  /** The next time that the clock shows it; empty for what is no time of day. */
  public static Optional<ZonedDateTime> next(String typed, ZonedDateTime now) {
    try {
      LocalTime time =
          LocalTime.parse(typed.strip(), DateTimeFormatter.ofPattern("H:mm", Locale.ROOT));
      ZonedDateTime today = now.with(time);
      return Optional.of(today.isAfter(now) ? today : today.plusDays(1));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  public static OptionalDouble celsius(String typed) {
    return Celsius.parse(typed, LEAST_CELSIUS, MOST_CELSIUS);
  }

  public boolean frost() {
    return coldest < VigilCautions.FROST_CELSIUS;
  }

  /** How long a vigil may last: to land the conductors and switch on takes its time too. */
  public long mostMicros(ZonedDateTime now) {
    return Duration.between(now, heatBy.minus(BEFORE)).toNanos() / 1000;
  }

  /** As the job file keeps it. */
  public String note() {
    return String.format(
        Locale.ROOT,
        "without heat; in the building: %s; outdoors %.0f C at the coldest; %s%s",
        people,
        coldest,
        HeatBy.KEY,
        heatBy.toOffsetDateTime().withNano(0));
  }
}
