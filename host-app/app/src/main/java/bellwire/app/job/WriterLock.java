package bellwire.app.job;

import bellwire.app.job.JobFileException.Trouble;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/**
 * Keeps a second writer out of a job file. A file beside it, for the system frees its lock when a
 * program dies, however it does.
 */
final class WriterLock {
  /**
   * What this program holds: to open and close a locked file a second time would give its lock away
   * on some systems.
   */
  private static final Set<Path> HELD = ConcurrentHashMap.newKeySet();

  /** Whoever looks whether it is held holds it for an instant. */
  private static final int TRIES = 1000;

  private final Path beside;
  private final FileChannel channel;
  private final AtomicInteger holders = new AtomicInteger(1);

  private WriterLock(Path beside, FileChannel channel) {
    this.beside = beside;
    this.channel = channel;
  }

  static WriterLock of(Path job) throws JobFileException {
    Path beside;
    try {
      beside = beside(job);
    } catch (IOException e) {
      throw unreachable(job, e);
    }
    if (!HELD.add(beside)) {
      throw inUse(job);
    }
    WriterLock taken = null;
    try {
      taken = tried(beside);
    } catch (IOException e) {
      throw unreachable(job, e);
    } finally {
      if (taken == null) {
        HELD.remove(beside);
      }
    }
    if (taken == null) {
      throw inUse(job);
    }
    return taken;
  }

  /** Whether a program holds it now, this one or another. */
  static boolean held(Path job) throws JobFileException {
    try {
      Path beside = beside(job);
      if (!HELD.add(beside)) {
        return true;
      }
      try (FileChannel channel = FileChannel.open(beside, StandardOpenOption.WRITE)) {
        return channel.tryLock() == null;
      } finally {
        HELD.remove(beside);
      }
    } catch (NoSuchFileException e) {
      return false;
    } catch (IOException e) {
      throw new JobFileException(job, Trouble.UNREACHABLE, "its lock cannot be looked at: " + e);
    }
  }

  private static Path beside(Path job) throws IOException {
    Path real = Files.exists(job) ? job.toRealPath() : parent(job).resolve(job.getFileName());
    return real.resolveSibling(real.getFileName() + ".lock");
  }

  private static Path parent(Path job) throws IOException {
    Path parent = job.toAbsolutePath().getParent();
    if (parent == null) {
      throw new IOException("is no file: " + job);
    }
    return parent.toRealPath();
  }

  private static @Nullable WriterLock tried(Path beside) throws IOException {
    FileChannel channel =
        FileChannel.open(beside, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    boolean locked = false;
    try {
      for (int i = 0; i < TRIES && !locked; i++) {
        if (i > 0) {
          Thread.yield();
        }
        locked = channel.tryLock() != null;
      }
    } finally {
      if (!locked) {
        channel.close();
      }
    }
    return locked ? new WriterLock(beside, channel) : null;
  }

  private static JobFileException unreachable(Path job, IOException cause) {
    String why = "" + cause;
    if (cause instanceof NoSuchFileException) {
      why = "there is no such directory";
    } else if (cause instanceof AccessDeniedException) {
      why = "you may not write there";
    } else if (cause instanceof FileSystemException of && of.getReason() != null) {
      why = of.getReason();
    }
    return new JobFileException(
        job, Trouble.UNREACHABLE, "cannot be written there; name another place: " + why);
  }

  private static JobFileException inUse(Path job) {
    return new JobFileException(
        job, Trouble.IN_USE, "is being written by another program or window; close that one");
  }

  /** One holder more, which releases it too. */
  void share() {
    if (holders.getAndUpdate(n -> n == 0 ? 0 : n + 1) == 0) {
      throw new IllegalStateException("the job file is closed: lock=" + beside);
    }
  }

  /** Frees it when the last holder does. */
  void release() {
    if (holders.decrementAndGet() > 0) {
      return;
    }
    try {
      channel.close();
    } catch (IOException e) {
      // The system frees it with the program.
    }
    HELD.remove(beside);
  }
}
