package bellwire.app.vigil;

import bellwire.app.job.VigilRow;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/** A vigil's times as people tell them. */
record VigilClock(VigilRow row, ZoneId zone) {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm:ss", Locale.ROOT);
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

  private ZonedDateTime wall(long micros) {
    long unix = row.unixMicros(micros);
    return Instant.EPOCH.plus(unix, ChronoUnit.MICROS).atZone(zone);
  }

  /** '14:02:10', on another day than the start '14:02:10 (day 2)'. */
  String at(long micros) {
    ZonedDateTime when = wall(micros);
    long day = ChronoUnit.DAYS.between(wall(row.startedMicros()).toLocalDate(), when.toLocalDate());
    return when.format(TIME) + (day == 0 ? "" : " (day " + (day + 1) + ")");
  }

  /** '2026-11-26 14:02:10'. */
  String full(long micros) {
    return wall(micros).format(DAY);
  }

  /** '2:05:00' since the start: what --from and --to take. */
  String since(long micros) {
    long seconds = Math.floorDiv(micros - row.startedMicros(), 1_000_000L);
    return String.format(
        Locale.ROOT, "%d:%02d:%02d", seconds / 3600, seconds / 60 % 60, seconds % 60);
  }
}
