package bellwire.app.job;

import bellwire.app.job.JobFileException.Trouble;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.function.LongSupplier;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConfig.JournalMode;
import org.sqlite.SQLiteConfig.SynchronousMode;
import org.sqlite.SQLiteOpenMode;

/**
 * A job file open for writing: by one program at a time, while any number may read it through
 * {@link VigilReader}. Used by one thread.
 */
public final class JobFile implements AutoCloseable {
  private static final int BUSY_MILLIS = 5000;

  private final Path path;
  private final FileChannel lock;
  private final Connection connection;

  private JobFile(Path path, FileChannel lock, Connection connection) {
    this.path = path;
    this.lock = lock;
    this.connection = connection;
  }

  /**
   * Opens it, creates it where there is none, brings an older version's tables up to date, and
   * checks the database.
   */
  public static JobFile open(Path path) throws JobFileException {
    FileChannel lock = locked(path);
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

  /** A connection to read a file that is a job. */
  static Connection connect(Path path) throws SQLException, JobFileException {
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
      config.setJournalMode(JournalMode.WAL);
      config.setSynchronous(SynchronousMode.FULL);
      // A block's last page is half empty, and a second's commit touches few bytes.
      config.setPageSize(1024);
    } else {
      // A reader must be able to recover what a killed writer left beside the file.
      config.resetOpenMode(SQLiteOpenMode.CREATE);
    }
    Connection connection = config.createConnection("jdbc:sqlite:" + path);
    try {
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
    if (version > Schema.newest()) {
      throw new JobFileException(
          path, Trouble.NEWER, "was written by a later Bellwire; use that one: version=" + version);
    }
  }

  /** A lock file beside it, for the system frees its lock when a program dies, however it does. */
  private static FileChannel locked(Path path) throws JobFileException {
    Path beside = path.resolveSibling(path.getFileName() + ".lock");
    FileChannel channel;
    try {
      channel = FileChannel.open(beside, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    } catch (IOException e) {
      throw new JobFileException(
          path, Trouble.UNREACHABLE, "cannot be written there; name another place: " + e);
    }
    try {
      FileLock held = channel.tryLock();
      if (held != null) {
        return channel;
      }
    } catch (OverlappingFileLockException e) {
      // This program itself has it open already.
    } catch (IOException e) {
      release(null, channel);
      throw new JobFileException(path, Trouble.UNREACHABLE, "cannot be locked: " + e);
    }
    release(null, channel);
    throw new JobFileException(
        path, Trouble.IN_USE, "is being written by another program or window; close that one");
  }

  /**
   * Begins a vigil.
   *
   * @param program what is watched for, such as 'continuity'
   * @param startedUnixMicros wall time of the start, for people
   * @param startedMicros device time of the start
   * @param nanoTime monotonic time in nanoseconds from any origin
   */
  public VigilStore startVigil(
      String program, long startedUnixMicros, long startedMicros, LongSupplier nanoTime)
      throws JobFileException {
    VigilTables tables = new VigilTables(connection);
    try {
      long vigil = tables.startVigil(program, startedUnixMicros, startedMicros);
      return new VigilStore(path, tables, vigil, nanoTime);
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

  /** For tests that fill the disk. */
  Connection connection() {
    return connection;
  }

  /** Closes the file only: what a store has not committed is not in it. */
  @Override
  public void close() throws JobFileException {
    try {
      connection.close();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    } finally {
      release(null, lock);
    }
  }

  private static void release(
      @org.jspecify.annotations.Nullable Connection connection, FileChannel lock) {
    try {
      if (connection != null) {
        connection.close();
      }
    } catch (SQLException e) {
      // Whatever it was opened for has failed already, and was told.
    }
    try {
      lock.close();
    } catch (IOException e) {
      // The system frees it with the program.
    }
  }
}
