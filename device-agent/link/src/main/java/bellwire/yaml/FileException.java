package bellwire.yaml;

/** A file that cannot be used: one line with file, line, what is wrong, and a remedy. */
public final class FileException extends Exception {
  private static final int MOST_FILE = 900;
  private static final int MOST_PROBLEM = 500;
  private static final int MOST_REMEDY = 1000;

  private final String file;
  private final int line;

  public FileException(String file, int line, String problem, String remedy) {
    super(
        Shown.line(file, MOST_FILE)
            + (line > 0 ? ":" + line : "")
            + ": "
            + Shown.line(problem, MOST_PROBLEM)
            + "; "
            + Shown.line(remedy, MOST_REMEDY));
    this.file = file;
    this.line = line;
  }

  public String file() {
    return file;
  }

  /** Counted from 1; 0 where no line is to blame. */
  public int line() {
    return line;
  }
}
