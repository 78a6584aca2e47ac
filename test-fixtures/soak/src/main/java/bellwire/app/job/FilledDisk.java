package bellwire.app.job;

import java.sql.SQLException;
import java.sql.Statement;
import org.jspecify.annotations.NullMarked;

/** A disk without room for one job file to grow, for the simulation of the whole system. */
@NullMarked
public final class FilledDisk {
  private static final long NO_BOUND = 1L << 30;

  private FilledDisk() {}

  /** Of this opening of the file, until it is told otherwise: what would make it larger fails. */
  public static void set(JobFile job, boolean full) {
    try (Statement statement = job.connection().createStatement()) {
      statement.execute("PRAGMA max_page_count = " + (full ? 1 : NO_BOUND)); // 1: as large as it is
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }
}
