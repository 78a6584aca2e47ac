package bellwire.app.cli;

import bellwire.yaml.Shown;
import java.io.PrintWriter;

/**
 * Prints what may hold a stranger's text: a name in a job file, what a device says of itself.
 * Characters that steer a terminal come out by their numbers; the program's own go by way of {@link
 * #own}.
 */
final class GuardedWriter extends PrintWriter {
  private final PrintWriter inner;

  GuardedWriter(PrintWriter inner) {
    super(inner, true);
    this.inner = inner;
  }

  /** Where to print what steers the terminal, without a stranger's text in it. */
  static PrintWriter own(PrintWriter out) {
    return out instanceof GuardedWriter guarded ? guarded.inner : out;
  }

  @Override
  public void write(int character) {
    write(String.valueOf((char) character), 0, 1);
  }

  @Override
  public void write(char[] buffer, int off, int len) {
    write(new String(buffer, off, len), 0, len);
  }

  @Override
  public void write(String text, int off, int len) {
    if (text.chars().noneMatch(GuardedWriter::guarded)) {
      super.write(text, off, len);
      return;
    }
    StringBuilder shown = new StringBuilder(len + 16);
    for (int i = off; i < off + len; i++) {
      char c = text.charAt(i);
      if (guarded(c)) {
        Shown.append(shown, c);
      } else {
        shown.append(c);
      }
    }
    super.write(shown.toString(), 0, shown.length());
  }

  /** Halves of a pair may come one by one. */
  private static boolean guarded(int character) {
    return Shown.steers(character)
        && character != '\n'
        && character != '\t'
        && !Character.isSurrogate((char) character);
  }
}
