package bellwire.agent.record;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;

/**
 * How far the host has the frames of each boot that is in the record, in a small file that is
 * replaced as a whole: "BwRel1\0\0", then of each boot its identifier and number, 8 bytes each, and
 * the CRC-32C of all before.
 */
final class Released {
  private static final String NAME = "released";
  private static final byte[] MAGIC = {'B', 'w', 'R', 'e', 'l', '1', 0, 0};
  private static final int MAX_BYTES = 1 << 20;

  private final Path directory;
  private final Map<Long, Long> below = new LinkedHashMap<>();
  private boolean changed;
  private boolean known = true;

  Released(Path directory) {
    this.directory = directory;
  }

  /** False where the file is damaged: then no one knows what is missing at a boot's beginning. */
  boolean read() throws IOException {
    byte[] bytes;
    try {
      Path file = directory.resolve(NAME);
      bytes = Files.size(file) > MAX_BYTES ? new byte[0] : Files.readAllBytes(file);
    } catch (NoSuchFileException e) {
      return true;
    }
    int body = bytes.length - MAGIC.length - 4;
    ByteBuffer in = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    known =
        body >= 0
            && body % 16 == 0
            && in.getInt(bytes.length - 4) == Block.checksum(bytes, 0, bytes.length - 4);
    for (int i = 0; known && i < body / 16; i++) {
      below.put(in.getLong(MAGIC.length + 16 * i), in.getLong(MAGIC.length + 16 * i + 8));
    }
    return known;
  }

  /** The first number of a boot that the host does not have, -1 where that is not known. */
  long below(long boot) {
    return below.getOrDefault(boot, known ? 0L : -1L);
  }

  void begin(long boot, long first) {
    changed |= below.putIfAbsent(boot, first) == null;
  }

  void release(long boot, long next) {
    Long before = below.get(boot);
    if (before == null || before < next) {
      below.put(boot, next);
      changed = true;
    }
  }

  void keepOnly(Collection<Long> boots) {
    changed |= below.keySet().retainAll(Set.copyOf(boots));
  }

  void forget(long boot) {
    changed |= below.remove(boot) != null;
  }

  /** Replaces the file where something has changed; afterwards it is on the disk. */
  void write() throws IOException {
    if (!changed) {
      return;
    }
    ByteBuffer out =
        ByteBuffer.allocate(MAGIC.length + 16 * below.size() + 4).order(ByteOrder.LITTLE_ENDIAN);
    out.put(MAGIC);
    below.forEach((boot, next) -> out.putLong(boot).putLong(next));
    out.putInt(Block.checksum(out.array(), 0, out.position())).flip();
    Path fresh = directory.resolve(NAME + ".new");
    try (FileChannel channel =
        FileChannel.open(
            fresh,
            StandardOpenOption.CREATE,
            StandardOpenOption.TRUNCATE_EXISTING,
            StandardOpenOption.WRITE)) {
      while (out.hasRemaining()) {
        channel.write(out);
      }
      channel.force(true);
    }
    Files.move(
        fresh,
        directory.resolve(NAME),
        StandardCopyOption.ATOMIC_MOVE,
        StandardCopyOption.REPLACE_EXISTING);
    syncDirectory(directory);
    changed = false;
  }

  /** That names made or taken away in it are on the disk. */
  static void syncDirectory(Path directory) throws IOException {
    try (FileChannel channel = FileChannel.open(directory, StandardOpenOption.READ)) {
      channel.force(true);
    }
  }
}
