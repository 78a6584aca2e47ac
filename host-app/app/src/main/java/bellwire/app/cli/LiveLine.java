package bellwire.app.cli;

import java.io.PrintWriter;

/**
 * A line that is written over while something is waited for; nothing where output is no terminal.
 * Where answers are typed they have a line of their own below it, so that neither disturbs the
 * other. Control sequences are those of ECMA-48 and of DEC's terminals, which every Unix terminal
 * follows; where there is no TERM the line is kept short and written over from its begin.
 */
final class LiveLine {
  /** A line that wraps can't be written over; a narrow terminal has 60 columns. */
  private static final int WIDTH = 59;

  private static final long REDRAW_NANOS = 100_000_000;
  private static final String SAVE = "\0337";
  private static final String RESTORE = "\0338";
  private static final String UP = "\033[A";
  private static final String WIPE = "\r\033[K";
  private static final String NO_WRAP = "\033[?7l";
  private static final String WRAP = "\033[?7h";
  private static final String PROMPT = "  > ";

  private final PrintWriter out;
  private final boolean typing;
  private final String terminal;
  private final boolean rewrites;
  private String shown = "";
  private long drawn;

  /**
   * @param typing whether answers are typed meanwhile
   */
  LiveLine(PrintWriter out, boolean typing) {
    String term = System.getenv("TERM");
    this.out = out;
    this.typing = typing;
    terminal = term == null ? "" : term;
    rewrites = System.console() != null && !terminal.equals("dumb");
  }

  void show(String words) {
    long now = System.nanoTime();
    if (!rewrites || words.equals(shown) || now - drawn < REDRAW_NANOS) {
      return;
    }
    drawn = now;
    if (terminal.isEmpty()) {
      String line = words.length() <= WIDTH ? words : words.substring(0, WIDTH - 3) + "...";
      out.print("\r" + line + " ".repeat(Math.max(0, shown.length() - line.length())));
    } else if (!typing) {
      out.print(WIPE + NO_WRAP + words + WRAP);
    } else if (shown.isEmpty()) {
      out.print(NO_WRAP + words + WRAP + System.lineSeparator() + PROMPT);
    } else {
      out.print(SAVE + UP + WIPE + NO_WRAP + words + WRAP + RESTORE);
    }
    out.flush();
    shown = words;
  }

  /** Takes the line away, and what of an answer is shown below it. */
  void clear() {
    if (shown.isEmpty()) {
      return;
    }
    if (terminal.isEmpty()) {
      out.print("\r" + " ".repeat(Math.min(WIDTH, shown.length())) + "\r");
    } else {
      out.print(typing ? WIPE + UP + WIPE : WIPE);
    }
    out.flush();
    shown = "";
  }

  /** An answer was typed: line and answer stay, and what follows comes below. */
  void answered() {
    if (terminal.isEmpty()) {
      clear();
    }
    shown = "";
  }
}
