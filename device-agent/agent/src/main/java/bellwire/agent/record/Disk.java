package bellwire.agent.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The segments in the record's directory, and the one that is being written. */
final class Disk implements AutoCloseable {
  private final RecordSettings settings;
  private final long boot;
  private final FileChannel lockFile;
  private final FileLock lock;
  private final List<Segment> segments;
  private final int unreadable;
  private long lastNumber;
  private @Nullable Segment current;
  private @Nullable FileChannel out;

  private Disk(RecordSettings settings, long boot, FileChannel lockFile, FileLock lock)
      throws IOException {
    this.settings = settings;
    this.boot = boot;
    this.lockFile = lockFile;
    this.lock = lock;
    this.segments = new ArrayList<>();
    int unread = 0;
    try (DirectoryStream<Path> files = Files.newDirectoryStream(settings.directory())) {
      for (Path file : files) {
        long number = Segment.number(file);
        if (number < 0) {
          continue;
        }
        lastNumber = Math.max(lastNumber, number);
        Segment segment = Segment.read(file, number);
        if (segment == null) {
          unread += Files.size(file) > Segment.HEADER_BYTES ? 1 : 0; // else torn at its birth
          Files.delete(file);
        } else if (segment.boot == boot) {
          throw new IOException("it has frames of this same start: boot=" + boot);
        } else {
          segments.add(segment);
        }
      }
    }
    this.unreadable = unread;
    segments.sort(Comparator.comparingLong(segment -> segment.number));
  }

  static Disk open(RecordSettings settings, long boot) throws IOException {
    Files.createDirectories(settings.directory());
    FileChannel file =
        FileChannel.open(
            settings.directory().resolve("lock"),
            StandardOpenOption.CREATE,
            StandardOpenOption.WRITE);
    try {
      FileLock lock = file.tryLock();
      if (lock == null) {
        throw new IOException("another agent is using it");
      }
      return new Disk(settings, boot, file, lock);
    } catch (OverlappingFileLockException e) {
      file.close();
      throw new IOException("another agent is using it", e);
    } catch (IOException e) {
      file.close();
      throw e;
    }
  }

  /** Files in which nothing could be read. */
  int unreadable() {
    return unreadable;
  }

  /** All, the oldest first. */
  List<Segment> segments() {
    return segments;
  }

  boolean isOwn(Segment segment) {
    return segment.boot == boot;
  }

  boolean isCurrent(Segment segment) {
    return segment == current;
  }

  long usedBytes() {
    long used = 0;
    for (Segment segment : segments) {
      used += segment.bytes;
    }
    return used;
  }

  /** What may still be written: within the bound, and within what the file system has. */
  long leftBytes() throws IOException {
    long usable = Files.getFileStore(settings.directory()).getUsableSpace();
    return Math.max(0, Math.min(settings.bytes() - usedBytes(), usable));
  }

  /** The segment that has to go before so many bytes are added; null for none. */
  @Nullable Segment inTheWay(long bytes) {
    boolean room = usedBytes() + bytes + Segment.HEADER_BYTES <= settings.bytes();
    return room || segments.isEmpty() ? null : segments.get(0);
  }

  /** Adds a block, given as encoded too. */
  void append(Block block, byte[] bytes) throws IOException {
    Segment into = current;
    if (into == null || into.bytes + bytes.length > settings.segmentBytes()) {
      closeCurrent();
      into = begin();
    }
    write(into, bytes);
    into.first = into.first < 0 ? block.first() : into.first;
    into.end = block.end();
  }

  private Segment begin() throws IOException {
    Segment fresh =
        new Segment(++lastNumber, boot, Segment.path(settings.directory(), lastNumber), 0);
    out = FileChannel.open(fresh.path, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    current = fresh;
    segments.add(fresh);
    write(fresh, fresh.header());
    Released.syncDirectory(settings.directory());
    return fresh;
  }

  private void write(Segment into, byte[] bytes) throws IOException {
    FileChannel channel = out;
    if (channel == null) {
      throw new IllegalStateException("no segment is open: number=" + into.number);
    }
    ByteBuffer buffer = ByteBuffer.wrap(bytes);
    while (buffer.hasRemaining()) {
      into.bytes += channel.write(buffer);
    }
  }

  /** All that was appended is on the disk afterwards. */
  void sync() throws IOException {
    if (out != null) {
      out.force(false);
    }
  }

  /** What follows goes into another segment. */
  void closeCurrent() throws IOException {
    FileChannel channel = out;
    Segment closed = current;
    out = null;
    current = null;
    if (channel != null) {
      try (channel) {
        channel.force(false);
      }
    }
    if (closed != null && closed.first < 0) {
      delete(closed);
    }
  }

  void delete(Segment segment) throws IOException {
    if (isCurrent(segment)) {
      closeCurrent();
    }
    Files.deleteIfExists(segment.path);
    segments.remove(segment);
  }

  @Override
  public void close() throws IOException {
    try (lockFile) {
      closeCurrent();
      lock.release();
    }
  }
}
