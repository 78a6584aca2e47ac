package bellwire.app.job;

import bellwire.app.job.Packed.Place;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** What waits for the next commit. It stays here until that has succeeded. */
final class Batch {
  private static final int ENTRY_BYTES = 64;

  private record StreamGap(Stream stream, Gap gap) {}

  private final Map<Place, VigilTables.Block> blocks = new LinkedHashMap<>();
  private final Map<Place, VigilTables.Row> pyramid = new LinkedHashMap<>();
  private final List<StreamGap> gaps = new ArrayList<>();
  private final List<VigilEvent> events = new ArrayList<>();
  private final List<Mark> marks = new ArrayList<>();
  private final Map<Long, Source> sources = new LinkedHashMap<>();
  private @Nullable Ending ending;
  private long bytes;

  void block(Stream stream, long spanIndex, Span span) {
    Place place = new Place(stream.id(), 0, spanIndex);
    Packed packed = Packed.of(place, span.encoded());
    blocks.put(place, new VigilTables.Block(place, span.firstMicros(), span.lastMicros(), packed));
    bytes += packed.payload().length;
  }

  void pyramid(Stream stream, int level, long index, PyramidRow row) {
    Place place = new Place(stream.id(), level, index);
    Packed packed = Packed.of(place, row.encoded());
    pyramid.put(place, new VigilTables.Row(place, packed));
    bytes += packed.payload().length;
  }

  void gap(Stream stream, Gap gap) {
    gaps.add(new StreamGap(stream, gap));
    bytes += gap.reason().length() + ENTRY_BYTES;
  }

  void event(VigilEvent event) {
    events.add(event);
    bytes += ENTRY_BYTES;
  }

  void mark(Mark mark) {
    marks.add(mark);
    bytes += mark.text().length() + ENTRY_BYTES;
  }

  /** The latest of its boot; put last, so that the order of arrival shows. */
  void source(Source source) {
    sources.remove(source.boot());
    sources.put(source.boot(), source);
  }

  /** Those that wait, the latest first, and behind them the ones of other boots. */
  List<Source> sourcesBefore(List<Source> stored) {
    List<Source> all = new ArrayList<>(sources.values());
    Collections.reverse(all);
    stored.stream().filter(s -> !sources.containsKey(s.boot())).forEach(all::add);
    return List.copyOf(all);
  }

  void ending(Ending told) {
    ending = told;
  }

  /** About so much of the heap. */
  long bytes() {
    return bytes;
  }

  void write(VigilTables tables, long vigil) throws SQLException {
    for (VigilTables.Block block : blocks.values()) {
      tables.put(block);
    }
    for (VigilTables.Row row : pyramid.values()) {
      tables.putPyramid(row);
    }
    for (StreamGap gap : gaps) {
      tables.put(gap.stream, gap.gap);
    }
    for (VigilEvent event : events) {
      tables.facts().put(vigil, event);
    }
    for (Mark mark : marks) {
      tables.facts().put(vigil, mark);
    }
    for (Source source : sources.values()) {
      tables.facts().put(vigil, source);
    }
    if (ending != null) {
      tables.facts().put(vigil, ending);
    }
  }

  void clear() {
    blocks.clear();
    pyramid.clear();
    gaps.clear();
    events.clear();
    marks.clear();
    sources.clear();
    ending = null;
    bytes = 0;
  }
}
