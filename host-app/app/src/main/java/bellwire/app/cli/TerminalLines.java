package bellwire.app.cli;

import bellwire.analysis.calls.Level;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.Step;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.Times;
import bellwire.app.report.StepText;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A line for each terminal: its level, for how long, and what the step wants of it. */
final class TerminalLines {
  private final Rehearsal rehearsal;
  private final long[] sinceMicros;
  private final List<Level> before = new ArrayList<>();
  private @Nullable Step step;
  private long stepMicros;

  TerminalLines(Rehearsal rehearsal) {
    this.rehearsal = rehearsal;
    sinceMicros = new long[rehearsal.terminals().size()];
  }

  /** A step is in force from now on; null where one has yet to be done. */
  void step(@Nullable Step inForce, long nowMicros) {
    step = inForce;
    stepMicros = nowMicros;
  }

  /**
   * @param nowMicros of any clock that goes on
   */
  List<String> lines(List<Level> levels, long nowMicros) {
    List<String> lines = new ArrayList<>();
    int width = rehearsal.terminals().stream().mapToInt(t -> t.name().length()).max().orElse(0);
    for (int i = 0; i < levels.size(); i++) {
      if (before.size() <= i) {
        before.add(levels.get(i));
        sinceMicros[i] = nowMicros;
      } else if (before.get(i) != levels.get(i)) {
        before.set(i, levels.get(i));
        sinceMicros[i] = nowMicros;
      }
      Terminal t = rehearsal.terminals().get(i);
      lines.add(
          String.format(
                  "    %-" + width + "s  %-4s %6s  %s",
                  t.name(),
                  StepText.level(levels.get(i)),
                  Times.sinceWords(nowMicros - sinceMicros[i]),
                  wanted(t, levels.get(i), nowMicros))
              .stripTrailing());
    }
    return lines;
  }

  private String wanted(Terminal t, Level level, long nowMicros) {
    Step now = step;
    if (now == null) {
      return "";
    }
    return StepText.wanted(rehearsal, now, t, level, nowMicros - stepMicros);
  }
}
