package bellwire.app.job;

import bellwire.app.job.Overview.Unreadable;
import bellwire.app.job.Stream.Kind;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;

/**
 * A stream as comma-separated values (RFC 4180): codes a line each, words a line for each run of
 * like ticks, so that a day's file opens in a notebook.
 */
public final class CsvExport {
  private CsvExport() {}

  /**
   * Writes a stretch of a stream.
   *
   * @return the damaged blocks, whose samples are left out
   */
  public static List<Unreadable> write(
      VigilReader reader, Stream stream, long fromMicros, long toMicros, Appendable to)
      throws IOException {
    boolean words = stream.kind() == Kind.WORDS;
    to.append(words ? "first_micros,ticks,ports_hex,latches_hex\r\n" : "micros,code\r\n");
    try {
      return reader.samples(
          stream,
          fromMicros,
          toMicros,
          (first, count, value, latches) -> {
            try {
              to.append(words ? run(first, count, value, latches) : first + "," + value + "\r\n");
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          });
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private static String run(long first, int count, int value, int latches) {
    return String.format(Locale.ROOT, "%d,%d,%05x,%05x\r\n", first, count, value, latches);
  }
}
