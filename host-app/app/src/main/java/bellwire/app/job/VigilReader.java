package bellwire.app.job;

import bellwire.app.job.Overview.Unreadable;
import bellwire.app.job.Packed.Place;
import bellwire.app.job.VigilTables.Block;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * A vigil as it stood when this was opened, also while it is being written. Take a new one for what
 * came since; one that is kept open keeps the database from tidying up. Used by one thread.
 */
public final class VigilReader implements AutoCloseable {
  private static final int MOST_COLUMNS = 100_000;

  /** A column is at least so many buckets, so that its edges move by no more than a half. */
  private static final int COLUMN_BUCKETS = 2;

  /** As {@link Samples}, with the group pattern. */
  public interface CodedSamples {
    /**
     * Takes ticks alike.
     *
     * @param code of the first, going on by one each tick, round and round
     */
    void run(long firstMicros, int count, int value, int latches, int code);
  }

  /** Receives samples in the order of their times. */
  public interface Samples {
    /**
     * Takes samples alike.
     *
     * @param firstMicros device time of the first
     * @param count samples alike, one period apart
     * @param value code, or a bit a port
     * @param latches a bit a port, of words
     */
    void run(long firstMicros, int count, int value, int latches);
  }

  private final Path path;
  private final VigilTables tables;
  private final long vigil;

  /** Whether the connection is this one's own, and closed with it. */
  private final boolean own;

  private final List<Stream> streams;

  /** By stream, what only the journal has. */
  private final Map<Long, List<Span>> journalled = new HashMap<>();

  private VigilReader(Path path, VigilTables tables, long vigil, boolean own) throws SQLException {
    this.path = path;
    this.tables = tables;
    this.vigil = vigil;
    this.own = own;
    if (own) {
      Transaction.freeze(tables.connection());
    }
    streams = tables.streams(vigil);
    readJournal();
  }

  /** The vigils in a job file, by their start. */
  public static List<VigilRow> vigils(Path path) throws JobFileException {
    try (java.sql.Connection connection = JobFile.connect(path)) {
      return new VigilTables(connection).facts().vigils();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** Opens a vigil of a job file. */
  public static VigilReader open(Path path, long vigil) throws JobFileException {
    try {
      return new VigilReader(path, new VigilTables(JobFile.connect(path)), vigil, true);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** In the state of the file that a reader's connection sees. */
  static VigilReader within(Path path, VigilTables tables, long vigil) throws JobFileException {
    try {
      return new VigilReader(path, tables, vigil, false);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  private void readJournal() throws SQLException {
    Map<Long, Stream> byId = new HashMap<>();
    Map<Long, Long> blocksEnd = new HashMap<>();
    for (Stream stream : streams) {
      byId.put(stream.id(), stream);
      tables.lastBlock(stream).ifPresent(b -> blocksEnd.put(stream.id(), b.lastMicros()));
    }
    for (VigilTables.Row row : tables.journal(vigil)) {
      try {
        for (JournalPart part : JournalPart.parts(row, byId)) {
          long id = part.stream().id();
          if (part.span().lastMicros() > blocksEnd.getOrDefault(id, Long.MIN_VALUE)) {
            journalled.computeIfAbsent(id, k -> new ArrayList<>()).add(part.span());
          }
        }
      } catch (Damage e) {
        // One second's samples; whoever goes on with the vigil enters the gap.
      }
    }
  }

  public List<Stream> streams() {
    return streams;
  }

  /** The vigil's row as it stood then. */
  public VigilRow row() throws JobFileException {
    try {
      return tables.facts().vigils().stream()
          .filter(row -> row.id() == vigil)
          .findFirst()
          .orElseThrow(() -> new IllegalArgumentException("no such vigil: id=" + vigil));
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** What was asked for; empty of a vigil that an earlier version began. */
  public Optional<Watched> watched() throws JobFileException {
    try {
      return tables.facts().watched(vigil);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** How far the agent's frames are in, of each of its boots; the latest first. */
  public List<Source> sources() throws JobFileException {
    try {
      return tables.facts().sources(vigil);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  public List<VigilEvent> events() throws JobFileException {
    try {
      return tables.facts().events(vigil);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  public List<Mark> marks() throws JobFileException {
    try {
      return tables.facts().marks(vigil);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** Device time of a stream's last sample; empty where it has none. */
  public OptionalLong lastMicros(Stream stream) throws JobFileException {
    try {
      long last = tables.lastBlock(stream).map(Block::lastMicros).orElse(Long.MIN_VALUE);
      for (Span span : journalled.getOrDefault(stream.id(), List.of())) {
        last = Math.max(last, span.lastMicros());
      }
      return last == Long.MIN_VALUE ? OptionalLong.empty() : OptionalLong.of(last);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** The gaps that overlap a time, by their start. */
  public List<Gap> gaps(Stream stream, long fromMicros, long toMicros) throws JobFileException {
    try {
      return tables.gaps(stream, fromMicros, toMicros);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /**
   * A stretch in columns, from few rows whatever its length: where the pyramid answers, the edges
   * are moved back to its buckets, by half a column at most. Each column says its edges, and is
   * exact for them.
   */
  public Overview overview(Stream stream, long fromMicros, long toMicros, int columns)
      throws JobFileException {
    if (columns < 1 || columns > MOST_COLUMNS) {
      throw new IllegalArgumentException("columns out of range: columns=" + columns);
    }
    if (toMicros - fromMicros < columns) {
      throw new IllegalArgumentException(
          "stretch shorter than its columns: micros=" + (toMicros - fromMicros));
    }
    int level = level(stream, (toMicros - fromMicros) / columns);
    Columns filling =
        new Columns(stream.kind(), edges(stream, level, fromMicros, toMicros, columns));
    List<Unreadable> unreadable = new ArrayList<>();
    try {
      if (level == 0) {
        blocks(stream, filling.fromMicros(), filling.toMicros(), filling, unreadable);
      } else {
        pyramid(stream, level, filling.fromMicros(), filling.toMicros(), filling, unreadable);
      }
      for (Span span : journalled.getOrDefault(stream.id(), List.of())) {
        span.fill(filling);
      }
      tables.gaps(stream, filling.fromMicros(), filling.toMicros()).forEach(filling::gap);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
    return new Overview(filling.done(), unreadable);
  }

  private static int level(Stream stream, long columnMicros) {
    int level = 0;
    while (level < Stream.LEVELS
        && COLUMN_BUCKETS * stream.bucketMicros(level + 1) <= columnMicros) {
      level++;
    }
    return level;
  }

  private static long[] edges(Stream stream, int level, long from, long to, int columns) {
    long[] edge = new long[columns + 1];
    for (int c = 0; c <= columns; c++) {
      // In two steps, for the product of a stretch and a number of columns may not fit.
      long length = to - from;
      long micros = from + length / columns * c + length % columns * c / columns;
      edge[c] = level == 0 ? micros : micros - Math.floorMod(micros, stream.bucketMicros(level));
    }
    return edge;
  }

  /** A damaged row is made up for by those below it; a missing one has nothing below it. */
  private void pyramid(
      Stream stream, int level, long from, long to, Columns filling, List<Unreadable> unreadable)
      throws SQLException {
    long rowMicros = stream.rowMicros(level);
    long bucketMicros = stream.bucketMicros(level);
    long first = Math.floorDiv(from, rowMicros);
    long last = Math.floorDiv(to - 1, rowMicros);
    for (VigilTables.Row stored : tables.pyramid(stream, level, first, last)) {
      long begin = stored.place().index() * rowMicros;
      try {
        PyramidRow row = PyramidRow.decoded(stream, stored.packed().plain(stored.place()));
        row.fill(filling, begin, bucketMicros);
      } catch (Damage e) {
        long low = Math.max(from, begin);
        long high = Math.min(to, begin + rowMicros);
        if (level == 1) {
          blocks(stream, low, high, filling, unreadable);
        } else {
          pyramid(stream, level - 1, low, high, filling, unreadable);
        }
      }
    }
  }

  private void blocks(
      Stream stream, long from, long to, Columns filling, List<Unreadable> unreadable)
      throws SQLException {
    tables.blocks(
        stream,
        stream.spanOf(from),
        stream.spanOf(to - 1),
        block -> decoded(stream, block, unreadable).ifPresent(span -> span.fill(filling)));
  }

  private static Optional<Span> decoded(Stream stream, Block block, List<Unreadable> unreadable) {
    Place place = block.place();
    try {
      return Optional.of(Span.decoded(stream, block.packed().plain(place)));
    } catch (Damage e) {
      unreadable.add(
          new Unreadable(block.firstMicros(), block.lastMicros(), String.valueOf(e.getMessage())));
      return Optional.empty();
    }
  }

  /**
   * Every sample of a stretch, for analysis and export.
   *
   * @param fromMicros device time of the first that may come
   * @param toMicros device time from which on none comes
   * @return the damaged blocks in it, whose samples are left out
   */
  public List<Unreadable> samples(Stream stream, long fromMicros, long toMicros, Samples samples)
      throws JobFileException {
    return coded(
        stream,
        fromMicros,
        toMicros,
        (first, count, value, latches, code) -> samples.run(first, count, value, latches));
  }

  /** As {@link #samples}, with the group pattern of each run's first tick. */
  public List<Unreadable> coded(Stream stream, long fromMicros, long toMicros, CodedSamples samples)
      throws JobFileException {
    List<Unreadable> unreadable = new ArrayList<>();
    try {
      tables.blocks(
          stream,
          stream.spanOf(fromMicros),
          stream.spanOf(toMicros - 1),
          block ->
              decoded(stream, block, unreadable)
                  .ifPresent(span -> clip(stream, span, fromMicros, toMicros, samples)));
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
    for (Span span : journalled.getOrDefault(stream.id(), List.of())) {
      clip(stream, span, fromMicros, toMicros, samples);
    }
    return unreadable;
  }

  private static void clip(Stream stream, Span span, long from, long to, CodedSamples samples) {
    long period = stream.periodMicros();
    span.forEach(
        (first, count, value, latches, code) -> {
          // Compared first, for a distance to the ends of time does not fit.
          long before = first >= from ? 0 : Math.min(count, -Math.floorDiv(first - from, period));
          long end = first >= to ? 0 : Math.min(count, -Math.floorDiv(first - to, period));
          if (end > before) {
            int group = (int) ((code + before) % stream.codes());
            samples.run(first + before * period, (int) (end - before), value, latches, group);
          }
        });
  }

  @Override
  public void close() throws JobFileException {
    if (!own) {
      return;
    }
    try {
      tables.connection().close();
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }
}
