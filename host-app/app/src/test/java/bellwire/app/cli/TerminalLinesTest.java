package bellwire.app.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import bellwire.analysis.calls.Level;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What is shown of the terminals while a step waits. */
final class TerminalLinesTest {
  private static final long SECOND = 1_000_000;

  @Test
  void eachTerminalHasALineWithItsLevelItsTimeAndWhatIsWantedOfIt() throws Exception {
    Rehearsal rehearsal = RehearsalFile.builtIn("heat-pump-o", Map.of());
    TerminalLines lines = new TerminalLines(rehearsal);
    lines.lines(List.of(Level.OFF, Level.OFF, Level.ON, Level.OFF), 0);
    lines.step(rehearsal.step("heat"), 10 * SECOND);
    assertEquals(
        List.of(
            "    Y1  off    0:12  awaited, 5:58 more",
            "    G   ON     0:00  called",
            "    O   ON     0:12  should be at rest",
            "    W1  off    0:12  at rest"),
        lines.lines(List.of(Level.OFF, Level.ON, Level.ON, Level.OFF), 12 * SECOND));
    lines.step(rehearsal.step("cool-off"), 20 * SECOND);
    assertEquals(
        "    O   ON     0:30  as it likes",
        lines.lines(List.of(Level.OFF, Level.ON, Level.ON, Level.OFF), 30 * SECOND).get(2));
    lines.step(rehearsal.step("heat"), 30 * SECOND);
    assertEquals(
        "    Y1  weak   0:00  LATE by 0:40",
        lines.lines(List.of(Level.WEAK, Level.ON, Level.ON, Level.OFF), 430 * SECOND).get(0));
  }

  @Test
  void linesAreWrittenOverInPlaceAndTakenAway() {
    StringWriter text = new StringWriter();
    PrintWriter out = new PrintWriter(text);
    LiveLines live = new LiveLines(out, true, "xterm", true);
    live.show(List.of("one", "two"));
    live.show(List.of("one")); // another number of lines: taken away first
    live.clear();
    String wipe = "\r\033[K";
    String line = wipe + "\033[?7l%s\033[?7h" + System.lineSeparator();
    assertEquals(
        line.formatted("one")
            + line.formatted("two")
            + "  > "
            + (wipe + ("\033[A" + wipe).repeat(2))
            + line.formatted("one")
            + "  > "
            + (wipe + "\033[A" + wipe),
        text.toString());
  }

  @Test
  void nothingIsShownWhereOutputIsNoTerminal() {
    StringWriter text = new StringWriter();
    LiveLines live = new LiveLines(new PrintWriter(text), false, "xterm", false);
    live.show(List.of("one"));
    live.clear();
    assertEquals("", text.toString());
  }
}
