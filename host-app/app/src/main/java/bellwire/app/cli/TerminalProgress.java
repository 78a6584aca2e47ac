package bellwire.app.cli;

import bellwire.app.report.Paragraph;
import bellwire.app.survey.SurveyListener;
import bellwire.yaml.Shown;
import java.io.PrintWriter;

/**
 * A survey's progress on a terminal: one line that is written over, or plain lines where output
 * goes to a file.
 */
final class TerminalProgress implements SurveyListener {
  private static final int BAR = 24;

  /** A line that wraps can't be written over, so it stays within a narrow terminal's 60 columns. */
  private static final int LINE = 59;

  private static final long REDRAW_NANOS = 100_000_000;

  private final PrintWriter out;
  private final PrintWriter own;
  private final boolean rewrites =
      System.console() != null && !"dumb".equals(System.getenv("TERM"));
  private String lastWanted = "";
  private String title = "";
  private String lastWaiting = "";
  private long drawn;
  private long began;
  private int width;

  TerminalProgress(PrintWriter out) {
    this.out = out;
    own = GuardedWriter.own(out);
  }

  @Override
  public void phase(String newTitle) {
    clear();
    title = newTitle;
    lastWaiting = "";
    lastWanted = "";
    began = System.nanoTime();
    out.println("> " + title);
    out.flush();
  }

  @Override
  public void progress(double share) {
    long now = System.nanoTime();
    if (rewrites && now - drawn >= REDRAW_NANOS) {
      drawn = now;
      int full = (int) Math.round(share * BAR);
      double left = share <= 0 ? 0 : (now - began) * 1e-9 * (1 - share) / share;
      over(
          "  ["
              + "=".repeat(full)
              + " ".repeat(BAR - full)
              + "] "
              + Math.round(share * 100)
              + " %, about "
              + Math.round(left)
              + " s left",
          "");
    }
  }

  /** Where no share is known: what has been done so far. */
  void counting(String words) {
    long now = System.nanoTime();
    if (rewrites && now - drawn >= REDRAW_NANOS) {
      drawn = now;
      over("  " + words, "");
    }
  }

  @Override
  public void waiting(String forWhat, String seen, long secondsLeft) {
    String words = forWhat + ", seen now: " + seen;
    if (rewrites) {
      if (!forWhat.equals(lastWanted)) {
        clear();
        out.println("  " + forWhat);
        lastWanted = forWhat;
      }
      over("    seen now: " + seen, " (" + secondsLeft + " s left)");
    } else if (!words.equals(lastWaiting)) {
      out.println("  " + words);
      out.flush();
    }
    lastWaiting = words;
  }

  @Override
  public void note(String words) {
    clear();
    lastWanted = "";
    Paragraph.hanging("  ", words).forEach(out::println);
    out.flush();
  }

  void end() {
    clear();
    out.flush();
  }

  private void over(String words, String tail) {
    int room = LINE - tail.length();
    String shown = Shown.line(words);
    String line = (shown.length() <= room ? shown : shown.substring(0, room - 3) + "...") + tail;
    own.print("\r" + line + " ".repeat(Math.max(0, width - line.length())));
    own.flush();
    width = line.length();
  }

  private void clear() {
    if (width > 0) {
      own.print("\r" + " ".repeat(width) + "\r");
      width = 0;
    }
  }
}
