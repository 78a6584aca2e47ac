package bellwire.app.desk.vigil;

import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.job.Mark;
import bellwire.app.rehearsal.Times;
import bellwire.app.vigil.VigilPicture;
import bellwire.app.vigil.VigilPicture.Course;
import bellwire.app.vigil.VigilPicture.Event;
import bellwire.app.vigil.VigilPicture.Lane;
import bellwire.app.vigil.VigilPicture.State;
import bellwire.app.vigil.VigilPicture.Stretch;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a chart shows at a moment, in words. */
final class StripWords {
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);
  private static final DateTimeFormatter FINE =
      DateTimeFormatter.ofPattern("HH:mm:ss.SSS", Locale.ROOT);
  private static final int MOST_NAMED = 4;

  private final VigilPicture picture;
  private final ZoneId zone;

  StripWords(VigilPicture picture, ZoneId zone) {
    this.picture = picture;
    this.zone = zone;
  }

  /** '14:02:10' of a time; with milliseconds where the picture is short enough for them. */
  String clock(long micros) {
    boolean fine = picture.toMicros() - picture.fromMicros() < 600_000_000L;
    Instant at = Instant.EPOCH.plus(picture.row().unixMicros(micros), ChronoUnit.MICROS);
    Instant begin = Instant.EPOCH.plus(picture.row().startedUnixMicros(), ChronoUnit.MICROS);
    long day =
        ChronoUnit.DAYS.between(begin.atZone(zone).toLocalDate(), at.atZone(zone).toLocalDate());
    String time = at.atZone(zone).format(fine ? FINE : CLOCK);
    return day == 0 ? time : time + " (day " + (day + 1) + ")";
  }

  /**
   * @param slackMicros what is so near counts as there
   */
  String at(long micros, long slackMicros) {
    StringBuilder words = new StringBuilder(clock(micros)).append(": ");
    for (Unwatched gap : picture.gaps()) {
      if (micros >= gap.fromMicros() && micros < gap.toMicros()) {
        String why = gap.reason().equals("missing") ? "no samples came" : gap.reason();
        return words.append("NOT WATCHED, ").append(why).append('.').toString();
      }
    }
    if (micros < picture.firstMicros() || micros > picture.lastMicros()) {
      return words.append("not watched yet, or no more.").toString();
    }
    List<String> said = new ArrayList<>();
    int quiet = 0;
    for (Lane lane : picture.lanes()) {
      String one = lane(lane, micros, slackMicros);
      if (one.isEmpty()) {
        quiet++;
      } else {
        said.add(one);
      }
    }
    words.append(String.join("; ", said));
    if (quiet > 0) {
      words.append(said.isEmpty() ? "all " : "; the other ").append(quiet).append(' ');
      words.append(quietWord());
    }
    for (Mark mark : picture.marks()) {
      if (Math.abs(mark.micros() - micros) <= slackMicros) {
        words.append("; noted: ").append(mark.text());
      }
    }
    return words.append('.').toString();
  }

  private String quietWord() {
    return switch (picture.program()) {
      case CONTINUITY -> "closed";
      case TOUCH -> "apart";
      case CALLS -> "off";
      case TREND -> "without a reading here";
    };
  }

  private String lane(Lane lane, long micros, long slack) {
    Course course = lane.course();
    for (Event event : lane.events()) {
      if (micros >= event.firstMicros() - slack && micros <= event.lastMicros() + slack) {
        return lane.name() + " " + event(event);
      }
    }
    for (Stretch stretch : lane.stretches()) {
      if (micros >= stretch.fromMicros() - slack && micros < stretch.toMicros() + slack) {
        String state = state(stretch.state());
        return state.isEmpty() ? "" : lane.name() + " " + state;
      }
    }
    if (course.points() > 0) {
      int near = nearest(course, micros);
      if (Math.abs(course.micros()[near] - micros) <= Math.max(slack, 2_000_000)
          && picture.lanes().size() <= MOST_NAMED * 4) {
        return lane.name() + " " + ohms(course, near);
      }
    }
    return "";
  }

  private static int nearest(Course course, long micros) {
    int at = java.util.Arrays.binarySearch(course.micros(), micros);
    int after = at >= 0 ? at : -at - 1;
    if (after == 0) {
      return 0;
    }
    if (after == course.points()) {
      return after - 1;
    }
    boolean earlier = micros - course.micros()[after - 1] < course.micros()[after] - micros;
    return earlier ? after - 1 : after;
  }

  private static String ohms(Course course, int at) {
    double low = course.low()[at];
    double high = course.high()[at];
    return low == high
        ? String.format(Locale.ROOT, "%.4f ohm", low)
        : String.format(Locale.ROOT, "%.4f to %.4f ohm", low, high);
  }

  private String event(Event event) {
    String what =
        switch (picture.program()) {
          case CONTINUITY -> "opened";
          case TOUCH -> "touched";
          case CALLS -> "changed";
          case TREND -> "read without a value, open or far from what was expected,";
        };
    if (event.count() > 1) {
      return what + " " + event.count() + " times here";
    }
    return event.brief()
        ? what + ", for less than a millisecond"
        : what + " for " + Times.words(Math.max(1000, event.lastMicros() - event.firstMicros()));
  }

  private String state(State state) {
    boolean calls = picture.program() == VigilProgram.CALLS;
    String on = calls ? "on" : picture.program() == VigilProgram.TOUCH ? "touching" : "open";
    return switch (state) {
      case THROUGHOUT -> on;
      case PARTLY -> calls ? "on and off" : on + " part of the time";
      case WEAK -> "weak: voltage, but too little for a call";
      case REST -> "";
    };
  }

  /** The whole picture in a sentence, for those who can't see it. */
  String whole() {
    long events = 0;
    for (Lane lane : picture.lanes()) {
      events += lane.events().stream().mapToLong(Event::count).sum();
    }
    return "From "
        + clock(picture.fromMicros())
        + " to "
        + clock(picture.toMicros())
        + ": "
        + count(picture.lanes().size(), "lane")
        + ", "
        + count(events, "event")
        + ", "
        + count(picture.gaps().size(), "gap")
        + ", "
        + count(picture.marks().size(), "note")
        + ".";
  }

  private static String count(long of, String one) {
    return of + " " + one + (of == 1 ? "" : "s");
  }
}
