package bellwire.app.vigil;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import java.nio.file.Path;
import java.util.List;

/**
 * What a job file holds already of a vigil that is gone on with. The calls' drop-outs are not kept
 * as events: they count anew.
 *
 * @param watchedMicros gaps left out
 */
public record SeenBefore(long watchedMicros, List<VigilEvent> events) {
  public SeenBefore {
    events = List.copyOf(events);
  }

  public static SeenBefore in(Path file, VigilRow row) throws JobFileException {
    try (VigilReader reader = VigilReader.open(file, row.id())) {
      long watched = 0;
      for (Stream stream : reader.streams()) {
        watched = Math.max(watched, watched(reader, stream, row.startedMicros()));
      }
      return new SeenBefore(watched, reader.events());
    }
  }

  private static long watched(VigilReader reader, Stream stream, long first)
      throws JobFileException {
    long last = reader.lastMicros(stream).orElse(first);
    long watched = last - first;
    for (Gap gap : reader.gaps(stream, first, last)) {
      watched -= Math.max(0, Math.min(last, gap.toMicros()) - Math.max(first, gap.fromMicros()));
    }
    return Math.max(0, watched);
  }
}
