package bellwire.agent.record;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * One file of the record: a header and blocks of one boot's frames in the order of their numbers.
 *
 * <pre>
 *   0   8  "BwRecord"
 *   8   4  version of the format, 1
 *  12   8  boot identifier
 *  20   8  number of the segment, one row over all boots
 *  28   4  CRC-32C of bytes 0 to 27
 * </pre>
 */
final class Segment {
  static final int HEADER_BYTES = 32;
  private static final String SUFFIX = ".frames";
  private static final int VERSION = 1;

  /** Twice the largest segment, which ends with the block that fills it. */
  private static final int MOST_BYTES = 8 << 20;

  private static final int CHECKED_BYTES = 28;
  private static final byte[] MAGIC = {'B', 'w', 'R', 'e', 'c', 'o', 'r', 'd'};

  final long number;
  final long boot;
  final Path path;
  long bytes;

  /** First number in it and the one behind the last, where they are known. */
  long first = -1;

  long end;

  /** The number behind the last that was not carried; counted for earlier boots only. */
  long endOfFrames;

  /** The disk failed to give it. */
  boolean unreadable;

  Segment(long number, long boot, Path path, long bytes) {
    this.number = number;
    this.boot = boot;
    this.path = path;
    this.bytes = bytes;
  }

  static Path path(Path directory, long number) {
    return directory.resolve(String.format(Locale.ROOT, "%010d%s", number, SUFFIX));
  }

  /** The number that a file's name gives it, -1 for another file. */
  static long number(Path file) {
    String name = String.valueOf(file.getFileName());
    return name.matches("\\d{10}" + SUFFIX) ? Long.parseLong(name.substring(0, 10)) : -1;
  }

  byte[] header() {
    ByteBuffer header =
        ByteBuffer.allocate(HEADER_BYTES)
            .order(ByteOrder.LITTLE_ENDIAN)
            .put(MAGIC)
            .putInt(VERSION)
            .putLong(boot)
            .putLong(number);
    return header.putInt(Block.checksum(header.array(), 0, CHECKED_BYTES)).array();
  }

  /**
   * The segment in a file, by its header or, where that is damaged, by its first whole block; null
   * where there is none.
   */
  static @Nullable Segment read(Path path, long number) throws IOException {
    byte[] bytes = new byte[HEADER_BYTES];
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      ByteBuffer into = ByteBuffer.wrap(bytes);
      while (into.hasRemaining() && channel.read(into) >= 0) {
        // a file may come in pieces
      }
    }
    ByteBuffer header = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    boolean good =
        Arrays.equals(bytes, 0, MAGIC.length, MAGIC, 0, MAGIC.length)
            && header.getInt(8) == VERSION
            && header.getLong(12) > 0
            && header.getLong(20) == number
            && header.getInt(CHECKED_BYTES) == Block.checksum(bytes, 0, CHECKED_BYTES);
    if (good) {
      return new Segment(number, header.getLong(12), path, Files.size(path));
    }
    Block block = new Reader(content(path)).next();
    return block == null ? null : new Segment(number, block.boot(), path, Files.size(path));
  }

  /** Its blocks from the beginning, as it stands on the disk now. */
  Reader reader() throws IOException {
    return new Reader(content(path));
  }

  /** As much as an agent writes; what a file has grown to otherwise is left. */
  private static byte[] content(Path path) throws IOException {
    try (InputStream in = Files.newInputStream(path)) {
      return in.readNBytes(MOST_BYTES);
    }
  }

  /** The whole blocks of a segment, one after the other. */
  static final class Reader {
    private final byte[] file;
    private int at = HEADER_BYTES;
    private int damaged;

    private Reader(byte[] file) {
      this.file = file;
    }

    /** The next whole block; null behind the last, where what is torn off at the end is left. */
    @Nullable Block next() {
      while (at < file.length) {
        int header = Block.find(file, at, file.length);
        if (header == file.length || Block.end(file, header) > file.length) {
          at = file.length;
          return null;
        }
        damaged += header > at ? 1 : 0;
        Block block = Block.decode(file, header);
        at = block == null ? header + Block.HEADER_BYTES : Block.end(file, header);
        if (block != null) {
          return block;
        }
        damaged++;
        at = Math.max(at, Block.find(file, at, file.length));
      }
      return null;
    }

    /** Places passed over in which something is damaged; a torn end counts as none. */
    int damaged() {
      return damaged;
    }
  }
}
