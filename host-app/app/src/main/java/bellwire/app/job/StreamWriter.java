package bellwire.app.job;

import bellwire.app.job.VigilTables.Block;
import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The end of a stream that is being written: its open span, and the pyramid's open rows. */
final class StreamWriter {
  private static final long NONE = Long.MIN_VALUE;
  private static final String MISSING = "missing";
  private static final String DAMAGED = "damaged block";

  private final Stream stream;
  private final Batch batch;
  private long openIndex = NONE;
  private Span open;

  /** Of the open span what no commit has stored yet. */
  private Span fresh;

  /** By level less 2; null where the stored row is damaged and has to be left to its lower ones. */
  private final @Nullable PyramidRow[] rows = new PyramidRow[Stream.LEVELS - 1];

  private final long[] rowIndex = new long[Stream.LEVELS - 1];
  private long lastMicros = NONE;
  private long expectedMicros = NONE;
  private long storedBefore = NONE;

  StreamWriter(Stream stream, Batch batch) {
    this.stream = stream;
    this.batch = batch;
    open = Span.of(stream);
    fresh = Span.of(stream);
    java.util.Arrays.fill(rowIndex, NONE);
  }

  Stream stream() {
    return stream;
  }

  long storedBefore() {
    return storedBefore;
  }

  /** Passes over samples that it has already, as a resumed link repeats them. */
  void add(long firstMicros, int count, int value, int latches, int code) {
    long first = firstMicros;
    int more = count;
    int group = code;
    if (lastMicros != NONE && first <= lastMicros) {
      long known = Math.floorDiv(lastMicros - first, stream.periodMicros()) + 1;
      if (known >= more) {
        return;
      }
      first += known * stream.periodMicros();
      more -= (int) known;
      group = later(code, known);
    }
    refuseTooClose(first);
    if (expectedMicros != NONE && stream.apart(expectedMicros - stream.periodMicros(), first)) {
      gap(first, MISSING);
    }
    while (more > 0) {
      long index = stream.spanOf(first);
      long end = (index + 1) * stream.spanMicros();
      int here = (int) Math.min(more, -Math.floorDiv(first - end, stream.periodMicros()));
      if (index != openIndex) {
        seal();
        openIndex = index;
        open = Span.of(stream);
        fresh = Span.of(stream);
      }
      open.add(first, here, value, latches, group);
      fresh.add(first, here, value, latches, group);
      first += here * stream.periodMicros();
      more -= here;
      group = later(group, here);
    }
    lastMicros = first - stream.periodMicros();
    expectedMicros = first;
  }

  private int later(int code, long ticks) {
    return (int) ((code + ticks) % stream.codes());
  }

  private void refuseTooClose(long first) {
    if (lastMicros != NONE && first - lastMicros < stream.periodMicros() / 2) {
      throw new IllegalArgumentException(
          "samples closer than half a period: micros=" + (first - lastMicros));
    }
  }

  /**
   * From where the next sample was expected, or before the first from a given time, to a time there
   * are none.
   */
  void gap(long fromMicros, long toMicros, String reason) {
    if (expectedMicros == NONE) {
      expectedMicros = fromMicros;
    }
    gap(toMicros, reason);
  }

  /** From where the next sample was expected to a time there are none, for a reason. */
  void gap(long toMicros, String reason) {
    if (expectedMicros != NONE && toMicros > expectedMicros) {
      batch.gap(stream, new Gap(expectedMicros, toMicros, reason));
      expectedMicros = toMicros;
    }
  }

  /** The open span as it is, as a block and in the pyramid; it may be sealed again when longer. */
  void seal() {
    if (open.isEmpty()) {
      return;
    }
    batch.block(stream, openIndex, open);
    PyramidRow lowest = new PyramidRow(stream);
    open.forEach(
        (first, count, value, latches, code) -> fill(lowest, first, count, value, latches));
    batch.pyramid(stream, 1, openIndex, lowest);
    for (int level = 2; level <= Stream.LEVELS; level++) {
      raise(level, lowest);
    }
  }

  private void fill(PyramidRow row, long firstMicros, int count, int value, int latches) {
    long bucketMicros = stream.bucketMicros(1);
    long base = openIndex * stream.buckets();
    long last = firstMicros + (count - 1) * stream.periodMicros();
    for (long b = Math.floorDiv(firstMicros, bucketMicros);
        b <= Math.floorDiv(last, bucketMicros);
        b++) {
      row.merge((int) (b - base), value, value, latches);
    }
  }

  private void raise(int level, PyramidRow lowest) {
    long index = Math.floorDiv(openIndex * stream.spanMicros(), stream.rowMicros(level));
    int at = level - 2;
    if (rowIndex[at] != index) {
      rowIndex[at] = index;
      rows[at] = new PyramidRow(stream);
    }
    PyramidRow row = rows[at];
    if (row == null) {
      return;
    }
    for (int i = 0; i < stream.buckets(); i++) {
      if (lowest.seen(i)) {
        long micros = openIndex * stream.spanMicros() + i * stream.bucketMicros(1);
        long bucket = Math.floorDiv(micros, stream.bucketMicros(level));
        row.merge(
            (int) Math.floorMod(bucket, (long) stream.buckets()),
            lowest.low(i),
            lowest.high(i),
            lowest.latches(i));
      }
    }
    batch.pyramid(stream, level, index, row);
  }

  /** What the next row of the journal must hold of this stream; empty where nothing is new. */
  Optional<JournalPart> fresh() {
    return fresh.isEmpty()
        ? Optional.empty()
        : Optional.of(new JournalPart(stream, openIndex, fresh));
  }

  /** A commit has stored all there was. */
  void committed() {
    fresh = Span.of(stream);
    if (lastMicros != NONE) {
      storedBefore = lastMicros + 1;
    }
  }

  /** Takes up the stored end: the last block, its rows of the pyramid. */
  void recover(VigilTables tables) throws SQLException {
    Optional<Block> last = tables.lastBlock(stream);
    if (last.isPresent()) {
      Block block = last.get();
      openIndex = block.place().index();
      lastMicros = block.lastMicros();
      expectedMicros = lastMicros + stream.periodMicros();
      try {
        open = Span.decoded(stream, block.packed().plain(block.place()));
      } catch (Damage e) {
        batch.gap(stream, new Gap(block.firstMicros(), expectedMicros, DAMAGED));
      }
      for (int level = 2; level <= Stream.LEVELS; level++) {
        recoverRow(tables, level);
      }
    }
    storedBefore = lastMicros == NONE ? NONE : lastMicros + 1;
  }

  /** After all samples: a gap told at the very end. */
  void recoverLastGap(VigilTables tables) throws SQLException {
    List<Gap> gaps = tables.gaps(stream, expectedMicros, Long.MAX_VALUE);
    if (!gaps.isEmpty()) {
      expectedMicros = gaps.get(gaps.size() - 1).toMicros();
    }
  }

  private void recoverRow(VigilTables tables, int level) throws SQLException {
    int at = level - 2;
    long index = Math.floorDiv(openIndex * stream.spanMicros(), stream.rowMicros(level));
    rowIndex[at] = index;
    rows[at] = null;
    for (VigilTables.Row row : tables.pyramid(stream, level, index, index)) {
      try {
        rows[at] = PyramidRow.decoded(stream, row.packed().plain(row.place()));
      } catch (Damage e) {
        // The reader goes to the lower rows; this one stays as it is.
      }
    }
  }

  /** A part that the journal kept, in the order of its rows. */
  void replay(JournalPart part) {
    part.span().forEach(this::add);
  }
}
