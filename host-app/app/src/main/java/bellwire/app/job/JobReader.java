package bellwire.app.job;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;

/**
 * A job file as it stood when this was opened, also while it is being written. Take a new one for
 * what came since. Used by one thread.
 */
public final class JobReader implements AutoCloseable {
  private final Path path;
  private final Connection connection;
  private final VigilTables vigils;

  private JobReader(Path path, Connection connection) throws SQLException {
    this.path = path;
    this.connection = connection;
    vigils = new VigilTables(connection);
    Transaction.freeze(connection);
    // The state is taken by the first look at it.
    Schema.version(connection);
  }

  public static JobReader open(Path path) throws JobFileException {
    if (!Files.isRegularFile(path)) {
      throw new JobFileException(
          path,
          JobFileException.Trouble.UNREACHABLE,
          "no such file; name a job file, or begin one with 'bellwire job new'");
    }
    try {
      Connection connection = JobFile.connect(path);
      try {
        return new JobReader(path, connection);
      } catch (SQLException e) {
        connection.close();
        throw e;
      }
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  public Path path() {
    return path;
  }

  /** To be read only. */
  public JobRecords records() {
    return new JobRecords(path, new Statements(connection), false);
  }

  /** By their start. */
  public List<VigilRow> vigils() throws JobFileException {
    try {
      return vigils.facts().vigils();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /**
   * A vigil's samples, in the state of the file that this reader sees; of no use once it is closed.
   *
   * @param vigil of one of {@link #vigils}
   */
  public VigilReader vigil(long vigil) throws JobFileException {
    return VigilReader.within(path, vigils, vigil);
  }

  @Override
  public void close() throws JobFileException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }
}
