package bellwire.app.report;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.rehearsal.Attempt;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.Times;
import java.util.ArrayList;
import java.util.List;

/**
 * The terminals' levels over a stretch of time in plain characters: a line for each terminal, one
 * for the steps.
 */
final class TraceLanes {
  private static final int COLUMNS = 60;
  private static final int NAME = 8;

  private final RehearsalOutcome outcome;

  TraceLanes(RehearsalOutcome outcome) {
    this.outcome = outcome;
  }

  static String legend() {
    return "# on, _ off, ~ weak, x both in one column, ? not known; | a step begins";
  }

  /** The stretch with a tenth of room on either side, within the rehearsal. */
  List<String> around(long fromMicros, long toMicros) {
    long room = Math.max(2_000_000, (toMicros - fromMicros) / 10);
    long from = Math.max(outcome.startMicros(), fromMicros - room);
    long to = Math.min(outcome.endMicros(), toMicros + room);
    return lanes(from, Math.max(to, from + COLUMNS));
  }

  private List<String> lanes(long from, long to) {
    List<String> lines = new ArrayList<>();
    lines.add(label("step") + steps(from, to));
    List<Terminal> terminals = outcome.rehearsal().terminals();
    for (int lead = 0; lead < terminals.size(); lead++) {
      lines.add(label(terminals.get(lead).name()) + lane(lead, from, to));
    }
    String left = at(from);
    String right = at(to);
    lines.add(
        label("")
            + left
            + " ".repeat(Math.max(1, COLUMNS - left.length() - right.length()))
            + right);
    return lines;
  }

  private static String label(String name) {
    String cut = name.length() > NAME ? name.substring(0, NAME) : name;
    return cut + " ".repeat(NAME + 1 - cut.length());
  }

  /** Minutes and seconds since the rehearsal began. */
  private String at(long micros) {
    return Times.sinceWords(micros - outcome.startMicros());
  }

  private String lane(int lead, long from, long to) {
    StringBuilder lane = new StringBuilder();
    List<LevelChange> own = outcome.changes().stream().filter(c -> c.lead() == lead).toList();
    int next = 0;
    Level level = Level.UNKNOWN;
    for (int column = 0; column < COLUMNS; column++) {
      long end = from + (to - from) * (column + 1) / COLUMNS;
      Level begin = level;
      boolean changed = false;
      while (next < own.size() && own.get(next).latestMicros() < end) {
        changed |= own.get(next).latestMicros() >= from && level != Level.UNKNOWN;
        level = own.get(next++).level();
      }
      lane.append(changed && begin == level ? 'x' : mark(level));
    }
    return lane.toString();
  }

  private static char mark(Level level) {
    return switch (level) {
      case ON -> '#';
      case OFF -> '_';
      case WEAK -> '~';
      case UNKNOWN -> '?';
    };
  }

  private String steps(long from, long to) {
    StringBuilder lane = new StringBuilder(" ".repeat(COLUMNS));
    for (Attempt attempt : outcome.attempts()) {
      if (attempt.fate() != Attempt.Fate.DONE && attempt.fate() != Attempt.Fate.SET_ASIDE) {
        continue;
      }
      long begin = Math.max(attempt.latestMicros(), from);
      if (attempt.endMicros() < from || begin > to) {
        continue;
      }
      int column = (int) Math.min(COLUMNS - 1, (begin - from) * COLUMNS / (to - from));
      String words = (attempt.latestMicros() >= from ? "|" : "") + attempt.step().name();
      for (int i = 0; i < words.length() && column + i < COLUMNS; i++) {
        lane.setCharAt(column + i, words.charAt(i));
      }
      if (column + words.length() < COLUMNS) {
        lane.setCharAt(column + words.length(), ' ');
      }
    }
    return lane.toString();
  }
}
