package bellwire.app.vigil;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.job.Mark;
import bellwire.app.report.Paragraph;
import bellwire.app.vigil.StoredVigil.Occurrence;
import java.util.ArrayList;
import java.util.List;

/**
 * A vigil's time in plain characters, a line a conductor. A column shows the worst in it, however
 * short; what was not watched shows as such.
 */
final class VigilLanes {
  private static final int COLUMNS = 60;
  private static final int NAME = 10;
  private static final int MOST_DIGIT = 9;

  private final StoredVigil vigil;
  private final VigilNames names;
  private final VigilClock clock;
  private final long from;
  private final long to;

  VigilLanes(StoredVigil vigil, VigilNames names, VigilClock clock) {
    this.vigil = vigil;
    this.names = names;
    this.clock = clock;
    from = vigil.watch().fromMicros();
    to = Math.max(vigil.watch().toMicros(), from + COLUMNS);
  }

  List<String> lines() {
    List<String> lines = new ArrayList<>();
    int quiet = 0;
    for (int left = vigil.watch().ports() | metal(); left != 0; left &= left - 1) {
      int port = Integer.numberOfTrailingZeros(left);
      char[] lane = lane(port);
      if (lane.length == 0) {
        quiet |= 1 << port;
      } else {
        lines.add(label(names.of(port)) + new String(lane));
      }
    }
    if (quiet != 0 && vigil.watch().program() != VigilProgram.TREND) {
      lines.add(label(lines.isEmpty() ? "all" : "others") + new String(background()));
    }
    if (!vigil.marks().isEmpty()) {
      lines.add(label("marks") + marks());
    }
    String left = clock.full(from);
    String right = clock.full(to);
    lines.add(
        label("")
            + left
            + " ".repeat(Math.max(1, COLUMNS - left.length() - right.length()))
            + right);
    lines.addAll(Paragraph.hanging("  ", legend()));
    return lines;
  }

  private int metal() {
    return vigil.watch().program() == VigilProgram.TOUCH ? 1 << 16 : 0;
  }

  private String legend() {
    String known = "? not watched, ~ in part";
    return switch (vigil.watch().program()) {
      case CONTINUITY -> "! open, ' less than 1 ms, - closed, " + known;
      case TOUCH -> "! touching, ' only just, - apart, " + known;
      case CALLS -> "# on, _ off, x both, w weak, " + known;
      case TREND -> "0 to 9: the greatest reading, least to greatest of its line, ! none; " + known;
    };
  }

  private static String label(String name) {
    String cut = name.length() > NAME ? name.substring(0, NAME) : name;
    return "  " + cut + " ".repeat(NAME + 1 - cut.length());
  }

  /** Empty for a conductor of which there is nothing to show. */
  private char[] lane(int port) {
    return switch (vigil.watch().program()) {
      case CONTINUITY, TOUCH -> happened(port);
      case CALLS -> levels(port);
      case TREND -> greatest(port);
    };
  }

  private int column(long micros) {
    double share = (double) (micros - from) / (to - from);
    return (int) Math.max(0, Math.min(COLUMNS - 1, share * COLUMNS));
  }

  private long begin(int column) {
    return from + (to - from) / COLUMNS * column + (to - from) % COLUMNS * column / COLUMNS;
  }

  private char[] background() {
    char[] lane = "-".repeat(COLUMNS).toCharArray();
    for (Unwatched gap : vigil.gaps()) {
      for (int c = column(gap.fromMicros()); c <= column(gap.toMicros()); c++) {
        lane[c] = '~';
      }
    }
    for (int c = 0; c < COLUMNS; c++) {
      long end = begin(c + 1);
      if (lane[c] == '~' && exposed(begin(c), end) == 0) {
        lane[c] = '?';
      }
    }
    return lane;
  }

  private long exposed(long low, long high) {
    return vigil.watch().exposure().upTo(high) - vigil.watch().exposure().upTo(low);
  }

  private char[] happened(int port) {
    char[] lane = new char[0];
    for (Occurrence each : vigil.occurrences()) {
      if ((each.ports() >> port & 1) == 0) {
        continue;
      }
      lane = lane.length == 0 ? background() : lane;
      for (int c = column(each.firstMicros()); c <= column(each.lastMicros()); c++) {
        lane[c] = each.brief() && lane[c] != '!' ? '\'' : '!';
      }
    }
    return lane;
  }

  private char[] levels(int lead) {
    char[] lane = background();
    boolean any = false;
    Level level = Level.UNKNOWN;
    long since = from;
    List<LevelChange> own = new ArrayList<>(vigil.levels());
    own.removeIf(change -> change.lead() != lead);
    for (int i = 0; i <= own.size(); i++) {
      long until = i < own.size() ? own.get(i).earliestMicros() : to;
      if (level != Level.UNKNOWN) {
        any = true;
        for (int c = column(since); c <= column(until); c++) {
          lane[c] = merged(lane[c], level);
        }
      }
      if (i < own.size()) {
        level = own.get(i).level();
        since = own.get(i).latestMicros();
      }
    }
    return any ? lane : new char[0];
  }

  private static char merged(char there, Level level) {
    char mark = level == Level.ON ? '#' : level == Level.WEAK ? 'w' : '_';
    boolean free = there == '-' || there == '~' || there == '?';
    return free || there == mark ? mark : 'x';
  }

  private char[] greatest(int port) {
    for (TrendSeries each : vigil.series()) {
      if (each.port() == port) {
        return greatest(each);
      }
    }
    return new char[0];
  }

  private char[] greatest(TrendSeries series) {
    double[] greatest = new double[COLUMNS];
    java.util.Arrays.fill(greatest, Double.NaN);
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    char[] lane = background();
    for (int i = 0; i < series.ohms().length; i++) {
      int c = column(series.micros()[i]);
      double ohms = series.ohms()[i];
      if (Double.isNaN(ohms)) {
        lane[c] = '!';
      } else {
        greatest[c] = Double.isNaN(greatest[c]) ? ohms : Math.max(greatest[c], ohms);
        low = Math.min(low, ohms);
        high = Math.max(high, ohms);
      }
    }
    for (int c = 0; c < COLUMNS; c++) {
      if (!Double.isNaN(greatest[c]) && lane[c] != '!') {
        double share = high > low ? (greatest[c] - low) / (high - low) : 0;
        lane[c] = (char) ('0' + Math.min(MOST_DIGIT, (int) (share * (MOST_DIGIT + 1))));
      }
    }
    return lane;
  }

  private String marks() {
    char[] lane = " ".repeat(COLUMNS).toCharArray();
    for (Mark mark : vigil.marks()) {
      lane[column(mark.micros())] = '^';
    }
    return new String(lane);
  }
}
