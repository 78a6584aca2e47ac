package bellwire.app.job;

import bellwire.yaml.Shown;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import org.sqlite.SQLiteErrorCode;

/** Trouble with a job file, in words for the person whose file it is. */
public final class JobFileException extends IOException {
  private static final long serialVersionUID = 1;
  private static final int MOST_WORDS = 1500;

  /** What kind of trouble. */
  public enum Trouble {
    /** Another program, or another window, writes to it. */
    IN_USE,
    /** No job file at all. */
    FOREIGN,
    /** Written by a later Bellwire. */
    NEWER,
    /** The database itself is damaged; a single damaged block is no such trouble. */
    DAMAGED,
    /** No room left. What was acknowledged stands. */
    FULL,
    /** The file is sound, but what was to be put in it can't be taken, for the reason told. */
    REFUSED,
    /** Can't be read or written, for the reason told. */
    UNREACHABLE
  }

  private final Trouble trouble;

  JobFileException(Path file, Trouble trouble, String words) {
    super(Shown.line(file + ": " + words, MOST_WORDS));
    this.trouble = trouble;
  }

  JobFileException(Path file, SQLException cause) {
    super(Shown.line(file + ": " + words(cause), MOST_WORDS), cause);
    trouble = trouble(cause);
  }

  public Trouble trouble() {
    return trouble;
  }

  private static Trouble trouble(SQLException cause) {
    SQLiteErrorCode code = SQLiteErrorCode.getErrorCode(cause.getErrorCode() & 0xFF);
    return switch (code) {
      case SQLITE_FULL -> Trouble.FULL;
      case SQLITE_BUSY, SQLITE_LOCKED -> Trouble.IN_USE;
      case SQLITE_CORRUPT -> Trouble.DAMAGED;
      case SQLITE_NOTADB -> Trouble.FOREIGN;
      default -> Trouble.UNREACHABLE;
    };
  }

  private static String words(SQLException cause) {
    SQLiteErrorCode code = SQLiteErrorCode.getErrorCode(cause.getErrorCode() & 0xFF);
    if (code == SQLiteErrorCode.SQLITE_CANTOPEN || code == SQLiteErrorCode.SQLITE_READONLY) {
      return "cannot be opened: is it there, and may you write beside it, where the database keeps a"
          + " log? If not, copy the file to a place where you may";
    }
    return switch (trouble(cause)) {
      case FULL -> "the disk is full; make room, nothing acknowledged is lost";
      case IN_USE -> "is being written by another program; close that one";
      case DAMAGED -> "the database is damaged; keep the file, and go on with a copy";
      case FOREIGN -> "is no job file; name another";
      default -> "cannot be read or written: " + cause.getMessage();
    };
  }
}
