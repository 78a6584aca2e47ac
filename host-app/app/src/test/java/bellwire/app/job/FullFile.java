package bellwire.app.job;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;

/** Lets a job file find no room for more pages, as SQLite finds none on a full disk. */
public final class FullFile {
  private static final long MOST_PAGES = 1_073_741_823;

  private FullFile() {}

  /** On the thread of the records. */
  public static boolean full(JobRecords records, boolean full) throws JobFileException {
    try (Statement statement = records.connection().createStatement()) {
      long pages = MOST_PAGES;
      if (full) {
        try (ResultSet now = statement.executeQuery("PRAGMA page_count")) {
          pages = now.getLong(1);
        }
      }
      statement.execute("PRAGMA max_page_count = " + pages);
      return full;
    } catch (SQLException e) {
      throw new AssertionError(e);
    }
  }
}
