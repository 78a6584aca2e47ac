package bellwire.app.vigil;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** When the building has to have its heat back, as a vigil's note keeps it, and its words. */
public final class HeatBy {
  public static final String KEY = "heat back by ";
  private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  /** So long before, the time left is told too. */
  private static final Duration SOON = Duration.ofHours(1);

  private final @Nullable OffsetDateTime time;

  private HeatBy(@Nullable OffsetDateTime time) {
    this.time = time;
  }

  /** Of a note that says nothing of it: never. */
  public static HeatBy of(String note) {
    int at = note.lastIndexOf(KEY);
    try {
      return new HeatBy(at < 0 ? null : OffsetDateTime.parse(note.substring(at + KEY.length())));
    } catch (DateTimeException e) {
      return new HeatBy(null);
    }
  }

  /** In a line while the vigil goes on; empty without such a time. */
  public String live(ZonedDateTime now) {
    if (time == null) {
      return "";
    }
    Duration left = Duration.between(now, time);
    if (left.isNegative()) {
      return "HEAT OVERDUE SINCE " + clock(time, now);
    }
    String soon = left.compareTo(SOON) < 0 ? ", IN " + left.toMinutes() + " min" : "";
    return "HEAT BACK BY " + clock(time, now) + soon;
  }

  /** What is to be done once the board has let go. */
  public String atTheEnd(ZonedDateTime now) {
    if (time == null) {
      return "Give the building its heat back, and see that it comes on.";
    }
    if (now.toOffsetDateTime().isAfter(time)) {
      return "THE HEAT IS OVERDUE since "
          + clock(time, now)
          + ": give the building its heat back now, and see that it comes on.";
    }
    return "Give the building its heat back by " + clock(time, now) + ", and see that it comes on.";
  }

  private static String clock(OffsetDateTime time, ZonedDateTime now) {
    return time.atZoneSameInstant(now.getZone()).format(CLOCK);
  }
}
