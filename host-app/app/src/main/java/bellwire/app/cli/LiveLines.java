package bellwire.app.cli;

import bellwire.yaml.Shown;
import java.io.PrintWriter;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Lines that are written over while something is waited for; nothing where output is no terminal.
 * Where answers are typed they have a line of their own below them, so that neither disturbs the
 * other. Control sequences are those of ECMA-48 and of DEC's terminals, which every Unix terminal
 * follows; where there is no TERM the first line alone is kept short and written over from its
 * begin.
 */
final class LiveLines {
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
  private List<String> shown = List.of();
  private long drawn;

  /**
   * @param typing whether answers are typed meanwhile
   */
  LiveLines(PrintWriter out, boolean typing) {
    this(out, typing, System.getenv("TERM"), System.console() != null);
  }

  /**
   * @param term the terminal's kind, null where there is none
   * @param console whether output goes to a person
   */
  LiveLines(PrintWriter out, boolean typing, @Nullable String term, boolean console) {
    // It steers the terminal itself, and shows other texts by what they are.
    this.out = GuardedWriter.own(out);
    this.typing = typing;
    terminal = term == null ? "" : term;
    rewrites = console && !terminal.equals("dumb");
  }

  void show(List<String> wanted) {
    List<String> lines = wanted.stream().map(Shown::line).toList();
    long now = System.nanoTime();
    if (!rewrites
        || lines.equals(shown)
        || lines.size() == shown.size() && now - drawn < REDRAW_NANOS) {
      return;
    }
    if (shown.size() != lines.size()) {
      clear();
    }
    drawn = now;
    if (terminal.isEmpty()) {
      String words = lines.get(0);
      String line = words.length() <= WIDTH ? words : words.substring(0, WIDTH - 3) + "...";
      out.print("\r" + line + " ".repeat(Math.max(0, width() - line.length())));
    } else if (shown.isEmpty()) {
      print(lines);
      out.print(typing ? PROMPT : "");
    } else {
      out.print((typing ? SAVE : "") + UP.repeat(lines.size()));
      print(lines);
      out.print(typing ? RESTORE : "");
    }
    out.flush();
    shown = List.copyOf(lines);
  }

  private void print(List<String> lines) {
    for (String line : lines) {
      out.print(WIPE + NO_WRAP + line + WRAP + System.lineSeparator());
    }
  }

  private int width() {
    return shown.isEmpty() ? 0 : Math.min(WIDTH, shown.get(0).length());
  }

  /** Takes the lines away, and what of an answer is shown below them. */
  void clear() {
    if (shown.isEmpty()) {
      return;
    }
    if (terminal.isEmpty()) {
      out.print("\r" + " ".repeat(width()) + "\r");
    } else {
      out.print((typing ? WIPE : "") + (UP + WIPE).repeat(shown.size()));
    }
    out.flush();
    shown = List.of();
  }

  /** An answer was typed: lines and answer stay, and what follows comes below. */
  void answered() {
    if (terminal.isEmpty()) {
      clear();
    }
    shown = List.of();
  }
}
