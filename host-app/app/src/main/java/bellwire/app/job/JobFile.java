package bellwire.app.job;

import bellwire.app.job.JobFileException.Trouble;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.function.LongSupplier;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConfig.SynchronousMode;
import org.sqlite.SQLiteOpenMode;

/**
 * A job file open for writing: by one program at a time, while any number may read it through
 * {@link JobReader} and {@link VigilReader}. Used by one thread; another takes one of its own with
 * {@link #beside}.
 */
public final class JobFile implements AutoCloseable {
  private static final int BUSY_MILLIS = 5000;

  private final Path path;
  private final WriterLock lock;
  private final Connection connection;
  private boolean closed;

  private JobFile(Path path, WriterLock lock, Connection connection) {
    this.path = path;
    this.lock = lock;
    this.connection = connection;
  }

  /**
   * Opens it, creates it where there is none, brings an older version's tables up to date, and
   * checks the database.
   */
  public static JobFile open(Path path) throws JobFileException {
    if (Files.isDirectory(path)) {
      throw new JobFileException(path, Trouble.FOREIGN, "is a directory; name a file in it");
    }
    WriterLock lock = WriterLock.of(path);
    Connection connection = null;
    try {
      if (Files.exists(path) && Files.size(path) > 0) {
        // Before anything of the file is changed.
        connect(path, false, true).close();
      }
      connection = connect(path, true, true);
      String trouble = Schema.firstTrouble(connection);
      if (!trouble.isEmpty()) {
        throw new JobFileException(
            path, Trouble.DAMAGED, "the database is damaged; keep the file: " + trouble);
      }
      Schema.bringUpToDate(connection);
      return new JobFile(path, lock, connection);
    } catch (SQLException e) {
      release(connection, lock);
      throw new JobFileException(path, e);
    } catch (IOException e) {
      release(connection, lock);
      throw e instanceof JobFileException told
          ? told
          : new JobFileException(path, Trouble.UNREACHABLE, "cannot be read: " + e);
    }
  }

  /** A connection to read a file that is a job; brings an older version up to date before. */
  static Connection connect(Path path) throws SQLException, JobFileException {
    Connection connection = connect(path, false, false);
    if (Schema.version(connection) == Schema.newest()) {
      return connection;
    }
    connection.close();
    open(path).close();
    return connect(path, false, false);
  }

  /**
   * @param mayBeEmpty a database without tables will do: a new one, perhaps left so by a kill
   */
  private static Connection connect(Path path, boolean writing, boolean mayBeEmpty)
      throws SQLException, JobFileException {
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(BUSY_MILLIS);
    config.enforceForeignKeys(true);
    if (writing) {
      config.setSynchronous(SynchronousMode.FULL);
      // A block's last page is half empty, and a second's commit touches few bytes.
      config.setPageSize(1024);
    } else {
      // A reader must be able to recover what a killed writer left beside the file.
      config.resetOpenMode(SQLiteOpenMode.CREATE);
    }
    // As a URI, for the driver takes what is behind a question mark of a bare name for settings.
    String name = path.toAbsolutePath().toUri().getRawPath();
    Connection connection = config.createConnection("jdbc:sqlite:file:" + name);
    try {
      Untrusted.restrict(connection);
      if (writing) {
        // After the pages' size, which it fixes.
        Transaction.execute(connection, "PRAGMA journal_mode = WAL");
      }
      refuseForeign(path, connection, mayBeEmpty);
      return connection;
    } catch (SQLException | JobFileException e) {
      connection.close();
      throw e;
    }
  }

  private static void refuseForeign(Path path, Connection connection, boolean mayBeEmpty)
      throws SQLException, JobFileException {
    if (mayBeEmpty && Schema.isEmpty(connection)) {
      return;
    }
    if (Schema.applicationId(connection) != Schema.APPLICATION_ID) {
      throw new JobFileException(path, Trouble.FOREIGN, "is no job file; name another");
    }
    int version = Schema.version(connection);
    if (version < 1) {
      throw new JobFileException(path, Trouble.FOREIGN, "is no job file; name another");
    }
    if (version > Schema.newest()) {
      throw new JobFileException(
          path, Trouble.NEWER, "was written by a later Bellwire; use that one: version=" + version);
    }
    String added = Untrusted.difference(connection, version);
    if (!added.isEmpty()) {
      throw new JobFileException(
          path,
          Trouble.FOREIGN,
          "was changed by another program, so that it could do what no job file does ("
              + added
              + "); have whoever sent it send it as Bellwire wrote it");
    }
  }

  /** The visit's records, on this file's connection. */
  public JobRecords records() {
    return new JobRecords(path, new Statements(connection), true);
  }

  /**
   * Another connection of this program, for another thread, under the same lock; the lock is freed
   * when the last one closes.
   */
  public JobFile beside() throws JobFileException {
    lock.share();
    try {
      return new JobFile(path, lock, connect(path, true, false));
    } catch (SQLException e) {
      lock.release();
      throw new JobFileException(path, e);
    } catch (JobFileException e) {
      lock.release();
      throw e;
    }
  }

  public Path path() {
    return path;
  }

  /**
   * Whether a program writes to it now: a vigil without an end is then under way, otherwise it was
   * left.
   */
  public static boolean isBeingWritten(Path path) throws JobFileException {
    return WriterLock.held(path);
  }

  /**
   * Begins a vigil.
   *
   * @param watched what was asked for
   * @param startedUnixMicros wall time of the start, for people
   * @param startedMicros device time of the start
   * @param nanoTime monotonic time in nanoseconds from any origin
   */
  public VigilStore startVigil(
      Watched watched, long startedUnixMicros, long startedMicros, LongSupplier nanoTime)
      throws JobFileException {
    VigilTables tables = new VigilTables(connection);
    try {
      long[] vigil = new long[1];
      Transaction.run(
          connection,
          () -> vigil[0] = tables.facts().startVigil(watched, startedUnixMicros, startedMicros));
      return new VigilStore(path, tables, vigil[0], nanoTime);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** Goes on with a vigil where it was left, by a close or by a kill. */
  public VigilStore resumeVigil(long vigil, LongSupplier nanoTime) throws JobFileException {
    try {
      VigilStore store = new VigilStore(path, new VigilTables(connection), vigil, nanoTime);
      store.recover();
      return store;
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /**
   * How far the frames of each of the agent's boots are in the file, by any of its vigils; the
   * latest first. Their offsets are those of one of the vigils.
   */
  public List<Source> sources() throws JobFileException {
    try {
      return new VigilTables(connection).facts().sources();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** For tests that fill the disk. */
  Connection connection() {
    return connection;
  }

  /** Closes the file only: what a store has not committed is not in it. */
  @Override
  public void close() throws JobFileException {
    if (closed) {
      return;
    }
    closed = true;
    try {
      connection.close();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    } finally {
      release(null, lock);
    }
  }

  private static void release(
      @org.jspecify.annotations.Nullable Connection connection, WriterLock lock) {
    try {
      if (connection != null) {
        connection.close();
      }
    } catch (SQLException e) {
      // Whatever it was opened for has failed already, and was told.
    }
    lock.release();
  }
}
