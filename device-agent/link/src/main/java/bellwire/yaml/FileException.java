package bellwire.yaml;

/** A file that cannot be used: one line with file, line, what is wrong, and a remedy. */
public final class FileException extends Exception {
  private final String file;
  private final int line;

  public FileException(String file, int line, String problem, String remedy) {
    super(file + (line > 0 ? ":" + line : "") + ": " + problem + "; " + remedy);
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
