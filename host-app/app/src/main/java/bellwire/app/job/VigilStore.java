package bellwire.app.job;

import bellwire.app.job.Packed.Place;
import bellwire.app.job.Stream.Kind;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongSupplier;

/**
 * Takes a vigil's samples as they come, and commits them at least every second, as long as samples
 * come or {@link #commitIfDue} is called. Times are device microseconds, rising within a stream.
 * What is acknowledged to the agent must be older than {@link #storedBefore}.
 *
 * <p>When a commit fails, all that waited for it still waits: the next append tries again first,
 * and fails as well until there is room. Used by one thread.
 */
public final class VigilStore implements AutoCloseable {
  private static final long COMMIT_NANOS = 1_000_000_000;

  /** More than this does not wait for the second to pass. */
  private static final long MOST_WAITING_BYTES = 4 << 20;

  /** As many rows go before the open spans are written as blocks, and it begins anew. */
  private static final int MOST_JOURNAL_ROWS = 256;

  /** More than this, of samples handed over in bulk, goes into blocks at once. */
  private static final int MOST_JOURNAL_ROW_BYTES = 1 << 15;

  private static final int MOST_STREAMS = 256;
  private static final int MOST_TEXT = 1000;
  private static final int CODE_BITS = 24;

  private final Path path;
  private final VigilTables tables;
  private final long vigil;
  private final LongSupplier nanoTime;
  private final Batch batch = new Batch();
  private final Map<Long, StreamWriter> writers = new LinkedHashMap<>();
  private List<Source> sources = List.of();
  private long journalRows;
  private boolean waiting;
  private boolean failed;
  private long waitingSinceNanos;

  VigilStore(Path path, VigilTables tables, long vigil, LongSupplier nanoTime) {
    this.path = path;
    this.tables = tables;
    this.vigil = vigil;
    this.nanoTime = nanoTime;
  }

  /** The key for {@link JobFile#resumeVigil}. */
  public long vigil() {
    return vigil;
  }

  /** What the board said of itself: {@link Watched#board}. */
  public void board(String words) throws JobFileException {
    bounded(words);
    try {
      tables.facts().board(vigil, words);
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
  }

  /** All ports' bits, sampled together every tick. */
  public Stream addWords(String name, long tickMicros) throws JobFileException {
    return addWords(name, tickMicros, 1);
  }

  /**
   * The same, while the agent drives group patterns in turn.
   *
   * @param codes how many patterns there are
   */
  public Stream addWords(String name, long tickMicros, int codes) throws JobFileException {
    return add(Kind.WORDS, List.of(name), tickMicros, codes).get(0);
  }

  /** A converter's codes of one conductor in one configuration. */
  public Stream addCodes(String name, long periodMicros) throws JobFileException {
    return addCodes(List.of(name), periodMicros).get(0);
  }

  /** The same of each configuration that a round goes through: all of them, or none. */
  public List<Stream> addCodes(List<String> names, long periodMicros) throws JobFileException {
    return add(Kind.CODES, names, periodMicros, 1);
  }

  private List<Stream> add(Kind kind, List<String> names, long periodMicros, int codes)
      throws JobFileException {
    if (writers.size() + names.size() > MOST_STREAMS) {
      throw new IllegalStateException("too many streams: count=" + writers.size());
    }
    for (String name : names) {
      bounded(name);
    }
    List<Stream> added = new ArrayList<>();
    try {
      Transaction.run(
          tables.connection(),
          () -> {
            for (String name : names) {
              Stream stream = Stream.of(kind, name, periodMicros, codes);
              added.add(stream.withId(tables.addStream(vigil, stream)));
            }
          });
    } catch (SQLException e) {
      throw new JobFileException(path, e);
    }
    for (Stream stream : added) {
      writers.put(stream.id(), new StreamWriter(stream, batch));
    }
    return added;
  }

  /** The streams added, also before a restart. */
  public List<Stream> streams() {
    return writers.values().stream().map(StreamWriter::stream).toList();
  }

  /**
   * A run of like ticks. Those stored already are passed over; a distance to the last becomes a
   * gap.
   *
   * @param count ticks, one period apart
   * @param word a bit a port
   * @param latches a bit a port whose latch was set at each of these ticks
   */
  public void appendTicks(Stream stream, long firstMicros, int count, int word, int latches)
      throws JobFileException {
    appendTicks(stream, firstMicros, count, word, latches, 0);
  }

  /**
   * The same, with the group pattern.
   *
   * @param code of the first tick, from 0, going on by one each tick, round and round
   */
  public void appendTicks(
      Stream stream, long firstMicros, int count, int word, int latches, int code)
      throws JobFileException {
    if (count < 1) {
      throw new IllegalArgumentException("no ticks: count=" + count);
    }
    if (code < 0 || code >= stream.codes()) {
      throw new IllegalArgumentException("no such group pattern: code=" + code);
    }
    append(stream, Kind.WORDS, firstMicros, count, word, latches, code);
  }

  /**
   * One converter code; one stored already is passed over, a distance to the last becomes a gap.
   */
  public void appendCode(Stream stream, long micros, int code) throws JobFileException {
    int spare = Integer.SIZE - CODE_BITS;
    if (code << spare >> spare != code) {
      throw new IllegalArgumentException("more than 24 bit: code=" + code);
    }
    append(stream, Kind.CODES, micros, 1, code, 0, 0);
  }

  private void append(
      Stream stream, Kind kind, long first, int count, int value, int latches, int code)
      throws JobFileException {
    if (stream.kind() != kind) {
      throw new IllegalArgumentException("stream of another kind: kind=" + stream.kind());
    }
    beforeAppending();
    writer(stream).add(first, count, value, latches, code);
    commitIfDue();
  }

  /** From the last sample to a time nothing is known of this stream; the reason is told. */
  public void gap(Stream stream, long toMicros, String reason) throws JobFileException {
    bounded(reason);
    beforeAppending();
    writer(stream).gap(toMicros, reason);
    commitIfDue();
  }

  /**
   * A gap in every stream, from where its next sample was expected; before a stream's first sample
   * from the time given.
   */
  public void interrupted(long fromMicros, long toMicros, String reason) throws JobFileException {
    bounded(reason);
    beforeAppending();
    for (StreamWriter writer : writers.values()) {
      writer.gap(fromMicros, toMicros, reason);
    }
    commitIfDue();
  }

  /** An event; one at the same port and time, found again after a restart, takes its place. */
  public void event(VigilEvent event) throws JobFileException {
    beforeAppending();
    batch.event(event);
    commitIfDue();
  }

  /** What a person noted. */
  public void mark(Mark mark) throws JobFileException {
    bounded(mark.text());
    beforeAppending();
    batch.mark(mark);
    commitIfDue();
  }

  /**
   * Everything of the agent's frames below this has been appended: committed together with it, so
   * that {@link #source} is never ahead of the samples.
   */
  public void arrived(Source source) throws JobFileException {
    beforeAppending();
    batch.source(source);
    commitIfDue();
  }

  /** How far the agent's frames are on the disk, of the boot that was told last. */
  public Optional<Source> source() {
    return sources.stream().findFirst();
  }

  /** The same of each of the agent's boots; the latest first. */
  public List<Source> sources() {
    return List.copyOf(sources);
  }

  /**
   * The vigil has ended, in words for people; commits at once. Told again, the later one stands.
   */
  public void ended(long micros, String outcome) throws JobFileException {
    bounded(outcome);
    beforeAppending();
    batch.ending(new Ending(micros, outcome));
    commit();
  }

  private void beforeAppending() throws JobFileException {
    if (failed) {
      commit();
    }
    if (!waiting) {
      waiting = true;
      waitingSinceNanos = nanoTime.getAsLong();
    }
  }

  /** Every sample of the stream before this device time is on the disk; nothing is where least. */
  public long storedBefore(Stream stream) {
    return writer(stream).storedBefore();
  }

  /** Commits where something has waited for a second. */
  public void commitIfDue() throws JobFileException {
    if (waiting
        && (nanoTime.getAsLong() - waitingSinceNanos >= COMMIT_NANOS
            || batch.bytes() > MOST_WAITING_BYTES)) {
      commit();
    }
  }

  /** Commits what waits, and returns when it is on the disk. */
  public void commit() throws JobFileException {
    if (!waiting) {
      return;
    }
    Packed fresh = fresh();
    if (journalRows >= MOST_JOURNAL_ROWS || fresh.payload().length > MOST_JOURNAL_ROW_BYTES) {
      seal();
    } else if (fresh.payload().length == 0) {
      write(() -> {});
    } else {
      write(() -> tables.putJournal(new VigilTables.Row(journalPlace(), fresh)));
      journalRows++;
    }
  }

  /** Commits what waits and seals the open spans, so that the file is as small as it gets. */
  @Override
  public void close() throws JobFileException {
    seal();
  }

  private void seal() throws JobFileException {
    for (StreamWriter writer : writers.values()) {
      writer.seal();
    }
    write(() -> tables.dropJournal(vigil));
    journalRows = 0;
  }

  private void write(Transaction.Work journal) throws JobFileException {
    try {
      Transaction.run(
          tables.connection(),
          () -> {
            batch.write(tables, vigil);
            journal.run();
          });
    } catch (SQLException e) {
      failed = true;
      throw new JobFileException(path, e);
    }
    for (StreamWriter writer : writers.values()) {
      writer.committed();
    }
    sources = batch.sourcesBefore(sources);
    batch.clear();
    waiting = false;
    failed = false;
  }

  /** What the next row of the journal must hold; empty where nothing is new. */
  private Packed fresh() {
    List<JournalPart> parts = new ArrayList<>();
    for (StreamWriter writer : writers.values()) {
      writer.fresh().ifPresent(parts::add);
    }
    return JournalPart.packed(journalPlace(), parts);
  }

  private Place journalPlace() {
    return new Place(vigil, -1, journalRows);
  }

  /** Takes up where the last commit left. */
  void recover() throws SQLException, JobFileException {
    sources = tables.facts().sources(vigil);
    Map<Long, Stream> streams = new HashMap<>();
    for (Stream stream : tables.streams(vigil)) {
      StreamWriter writer = new StreamWriter(stream, batch);
      writer.recover(tables);
      writers.put(stream.id(), writer);
      streams.put(stream.id(), stream);
    }
    for (VigilTables.Row row : tables.journal(vigil)) {
      try {
        for (JournalPart part : JournalPart.parts(row, streams)) {
          writer(part.stream()).replay(part);
        }
      } catch (Damage e) {
        // What it held shows as a gap before the next sample.
      }
    }
    for (StreamWriter writer : writers.values()) {
      writer.recoverLastGap(tables);
    }
    seal();
  }

  private StreamWriter writer(Stream stream) {
    return Optional.ofNullable(writers.get(stream.id()))
        .orElseThrow(
            () -> new IllegalArgumentException("stream of another vigil: id=" + stream.id()));
  }

  private static void bounded(String text) {
    if (text.length() > MOST_TEXT) {
      throw new IllegalArgumentException("text too long: length=" + text.length());
    }
  }
}
