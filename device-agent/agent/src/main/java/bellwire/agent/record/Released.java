package bellwire.agent.record;

import bellwire.link.DataFrame;
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
import java.util.List;
import java.util.Map;

/**
 * How far the host has the frames of each boot that is in the record, in a small file that is
 * replaced as a whole: "BwRel1\0\0", then of each boot its identifier, the number below which its
 * frames are the host's, that below which the others were dropped, 8 bytes each; at the end the
 * CRC-32C of all before.
 */
final class Released {
  private static final String NAME = "released";
  private static final byte[] MAGIC = {'B', 'w', 'R', 'e', 'l', '1', 0, 0};
  private static final int MAX_BYTES = 1 << 20;

  private static final int ENTRY_BYTES = 24;

  /** Frames below the first are the host's, the others below the second were dropped. */
  private record Ends(long below, long dropped) {}

  private final Path directory;
  private final Map<Long, Ends> boots = new LinkedHashMap<>();
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
            && body % ENTRY_BYTES == 0
            && in.getInt(bytes.length - 4) == Block.checksum(bytes, 0, bytes.length - 4);
    in.position(Math.min(bytes.length, MAGIC.length));
    for (int i = 0; known && i < body / ENTRY_BYTES; i++) {
      long boot = in.getLong();
      Ends ends = new Ends(in.getLong(), in.getLong());
      known = boot > 0 && isNumber(ends.below) && isNumber(ends.dropped);
      boots.put(boot, ends);
    }
    if (!known) {
      boots.clear();
    }
    return known;
  }

  /** One behind the last number at most. */
  private static boolean isNumber(long end) {
    return end >= 0 && end <= DataFrame.MAX_SEQUENCE + 1;
  }

  /** The first number of a boot that the host does not have, -1 where that is not known. */
  long below(long boot) {
    Ends ends = boots.get(boot);
    return ends != null ? ends.below() : known ? 0 : -1;
  }

  /** The number behind the last that was dropped for want of room, 0 for none. */
  long dropped(long boot) {
    Ends ends = boots.get(boot);
    return ends == null ? 0 : ends.dropped();
  }

  /** Boots of which something was dropped that the host has not been told, the oldest first. */
  List<Long> untold() {
    return boots.entrySet().stream()
        .filter(boot -> boot.getValue().dropped() > boot.getValue().below())
        .map(Map.Entry::getKey)
        .toList();
  }

  void begin(long boot, long first) {
    changed |= boots.putIfAbsent(boot, new Ends(first, 0)) == null;
  }

  void release(long boot, long next) {
    if (!boots.containsKey(boot) || below(boot) < next) {
      boots.put(boot, new Ends(next, dropped(boot)));
      changed = true;
    }
  }

  void drop(long boot, long end) {
    if (end > dropped(boot)) {
      boots.put(boot, new Ends(Math.max(0, below(boot)), end));
      changed = true;
    }
  }

  /** Only these, and those of which the host has not been told all. */
  void keepOnly(Collection<Long> present) {
    List<Long> untold = untold();
    changed |= boots.keySet().removeIf(boot -> !present.contains(boot) && !untold.contains(boot));
  }

  /** Replaces the file where something has changed; afterwards it is on the disk. */
  void write() throws IOException {
    if (!changed) {
      return;
    }
    ByteBuffer out =
        ByteBuffer.allocate(MAGIC.length + ENTRY_BYTES * boots.size() + 4)
            .order(ByteOrder.LITTLE_ENDIAN);
    out.put(MAGIC);
    boots.forEach((boot, ends) -> out.putLong(boot).putLong(ends.below()).putLong(ends.dropped()));
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
