package bellwire.app.desk;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.jspecify.annotations.Nullable;

/**
 * How long a thread has been ready to go on while no processor was free for it, as Linux counts it
 * (the second number of schedstat, in nanoseconds; proc(5)). Used by that thread alone.
 */
final class ProcessorWait {
  private static final Path SCHEDSTAT = Path.of("/proc/thread-self/schedstat");

  private final ByteBuffer bytes = ByteBuffer.allocate(128);
  private @Nullable FileChannel channel;
  private @Nullable Thread of;

  /** 0 where the system does not tell. */
  long nanos() {
    try {
      if (of != Thread.currentThread()) {
        close();
        of = Thread.currentThread();
        channel = FileChannel.open(SCHEDSTAT, StandardOpenOption.READ);
      }
      FileChannel open = channel;
      return open == null ? 0 : second(open);
    } catch (IOException | NumberFormatException e) {
      close();
      return 0;
    }
  }

  private long second(FileChannel open) throws IOException {
    bytes.clear();
    int length = open.read(bytes, 0);
    String[] numbers = new String(bytes.array(), 0, length, StandardCharsets.US_ASCII).split(" ");
    return Long.parseLong(numbers[1].strip());
  }

  private void close() {
    try {
      FileChannel open = channel;
      channel = null;
      if (open != null) {
        open.close();
      }
    } catch (IOException e) {
      // Nothing was written.
    }
  }
}
