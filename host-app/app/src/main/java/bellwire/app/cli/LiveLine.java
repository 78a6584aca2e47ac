package bellwire.app.cli;

import java.io.PrintWriter;

/**
 * A line that is written over while something is waited for; nothing where output is no terminal.
 */
final class LiveLine {
  /** A line that wraps can't be written over. */
  private static final int WIDTH = 79;

  private static final long REDRAW_NANOS = 100_000_000;

  private final PrintWriter out;
  private final boolean rewrites =
      System.console() != null && !"dumb".equals(System.getenv("TERM"));
  private int width;
  private long drawn;

  LiveLine(PrintWriter out) {
    this.out = out;
  }

  void show(String words) {
    long now = System.nanoTime();
    if (!rewrites || now - drawn < REDRAW_NANOS) {
      return;
    }
    drawn = now;
    String line = words.length() <= WIDTH ? words : words.substring(0, WIDTH - 3) + "...";
    out.print("\r" + line + " ".repeat(Math.max(0, width - line.length())));
    out.flush();
    width = line.length();
  }

  void clear() {
    if (width > 0) {
      out.print("\r" + " ".repeat(width) + "\r");
      width = 0;
    }
  }
}
