package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.app.survey.BoardSaid;
import bellwire.app.survey.InstrumentTrouble;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.jspecify.annotations.Nullable;

/**
 * A rehearsal's record played again: its samples, and the operator who took it. With the same
 * rehearsal file it gives the same outcome as the live one.
 */
public final class Replay implements CallSource, Operator {
  /** One sample takes two characters at least; no line of a frame is longer than this. */
  private static final int MAX_LINE = 1 << 20;

  private static final int MAX_SAMPLES = 1 << 16;

  /** A day's, a thousand a second: a few packed bytes could say that there are any number. */
  private static final long MOST_SAMPLES = 86_400_000;

  private static final long MOST_MICROS = 1L << 60;

  private static final List<String> NEXT = Stream.of(Next.values()).map(Next::name).toList();

  private final String name;
  private final BufferedReader lines;
  private final ObjectMapper json = new ObjectMapper();
  private int lineNumber;
  private int stalledLine;
  private @Nullable JsonNode next;
  private BoardSaid board = BoardSaid.NOTHING;
  private @Nullable LevelTracker tracker;
  private long nowMicros = -1;
  private long notBeyondMicros;
  private long samples;
  private int worstLateMicros;

  private Replay(String name, BufferedReader lines) {
    this.name = name;
    this.lines = lines;
  }

  /**
   * @throws InstrumentTrouble where the file is no record of this rehearsal
   */
  public static Replay open(Path file, Rehearsal rehearsal) throws IOException, InstrumentTrouble {
    return open(
        file.toString(), Files.newInputStream(file), file.toString().endsWith(".gz"), rehearsal);
  }

  /**
   * @param name to blame
   * @param packed whether it is compressed
   */
  public static Replay open(String name, InputStream record, boolean packed, Rehearsal rehearsal)
      throws IOException, InstrumentTrouble {
    InputStream in = record;
    try {
      if (packed) {
        in = new GZIPInputStream(in, 1 << 14);
      }
      Replay replay =
          new Replay(name, new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8)));
      replay.header(rehearsal);
      return replay;
    } catch (IOException | InstrumentTrouble e) {
      in.close();
      throw e;
    }
  }

  private void header(Rehearsal rehearsal) throws InstrumentTrouble {
    advance();
    JsonNode header = next;
    if (header == null || header.path(TraceWriter.KIND).asInt() != TraceWriter.VERSION) {
      throw wrong("no record of a rehearsal; name a file made with --record");
    }
    String made = header.path("terminals").toString();
    String wanted =
        json.valueToTree(rehearsal.terminals().stream().map(Terminal::name).toList()).toString();
    if (!made.equals(wanted)) {
      throw wrong(
          "made with other terminals, "
              + made
              + ", than this rehearsal has, "
              + wanted
              + "; replay it with the rehearsal "
              + header.path("rehearsal").asText());
    }
    advance();
    JsonNode line = next;
    if (line != null && line.has(TraceWriter.BOARD)) {
      board =
          new BoardSaid(
              line.path(TraceWriter.BOARD).asText(),
              line.path("agent").asText(),
              line.path("self-check").asText());
      advance();
    }
  }

  private void advance() throws InstrumentTrouble {
    try {
      String line = line();
      try {
        next = line == null ? null : json.readTree(line);
        if (next != null && next.has("over") && !NEXT.contains(next.path("next").asText())) {
          throw wrong("no such end of a step: " + next.path("next").asText());
        }
      } catch (JsonProcessingException e) {
        // The last line of a rehearsal that was cut off: what came before counts.
        next = null;
        if (line() != null) {
          lineNumber--;
          throw wrong("the record is damaged here");
        }
      }
    } catch (IOException e) {
      next = null;
    }
  }

  /** The next line, null at the end. */
  private @Nullable String line() throws IOException, InstrumentTrouble {
    lineNumber++;
    StringBuilder line = new StringBuilder();
    int c = lines.read();
    if (c < 0) {
      return null;
    }
    for (; c >= 0 && c != '\n'; c = lines.read()) {
      if (line.length() == MAX_LINE) {
        throw wrong("too long a line");
      }
      line.append((char) c);
    }
    return line.toString();
  }

  private InstrumentTrouble wrong(String words) {
    return new InstrumentTrouble(name + ":" + lineNumber + ": " + words);
  }

  @Override
  public void start(Rehearsal.Feed feed, int leads, Consumer<LevelChange> sink)
      throws InstrumentTrouble {
    tracker =
        new LevelTracker(
            feed == Rehearsal.Feed.DRY ? LevelTracker.Feed.DRY : LevelTracker.Feed.AC,
            (1 << leads) - 1,
            sink);
    await(0);
  }

  /** One frame of samples, where one is next. */
  @Override
  public void await(long micros) throws InstrumentTrouble {
    if (next != null && next.has("finished")) {
      advance();
    }
    JsonNode line = next;
    if (line == null) {
      return;
    }
    if (!line.has("at")) {
      // Once is an end of a step that is looked at next; nobody waits for another line twice.
      if (lineNumber == stalledLine) {
        throw wrong("a line that has no place here");
      }
      stalledLine = lineNumber;
      return;
    }
    int[] delta = runs(line, "delta");
    int[] late = runs(line, "late");
    int[] took = runs(line, "took");
    int[] word = runs(line, "word");
    if (delta.length != word.length || late.length != word.length || took.length != word.length) {
      throw wrong("a frame whose lists differ in length");
    }
    LevelTracker levels = tracker;
    long at = micros(line, "at");
    if (levels == null || at <= nowMicros) {
      throw wrong("samples out of order: at=" + at);
    }
    for (int i = 0; i < word.length; i++) {
      if (i > 0 && delta[i] == 0) {
        throw wrong("two samples at one time");
      }
      at += delta[i];
      levels.sample(at, took[i], word[i]);
      worstLateMicros = Math.max(worstLateMicros, late[i]);
    }
    samples += word.length;
    if (samples > MOST_SAMPLES) {
      throw wrong("more samples than a day has; rehearse in shorter parts");
    }
    nowMicros = at;
    notBeyondMicros = Math.max(notBeyondMicros, at);
    advance();
  }

  /** A time that a clock may tell, and to which a day may be added. */
  private long micros(JsonNode line, String name) throws InstrumentTrouble {
    long micros = line.path(name).asLong();
    if (micros < 0 || micros > MOST_MICROS) {
      throw wrong("no time: " + name + "=" + micros);
    }
    return micros;
  }

  private int[] runs(JsonNode line, String name) throws InstrumentTrouble {
    JsonNode pairs = line.path(name);
    int total = 0;
    for (int i = 1; i < pairs.size(); i += 2) {
      int times = pairs.get(i).asInt();
      if (times < 1 || times > MAX_SAMPLES - total) {
        throw wrong("a frame that cannot be read: " + name);
      }
      total += times;
    }
    int[] values = new int[total];
    int filled = 0;
    for (int i = 0; i + 1 < pairs.size(); i += 2) {
      int value = pairs.get(i).asInt();
      if (value < 0) {
        throw wrong("a frame that cannot be read: " + name + "=" + value);
      }
      for (int k = pairs.get(i + 1).asInt(); k > 0; k--) {
        values[filled++] = value;
      }
    }
    return values;
  }

  @Override
  public long nowMicros() {
    return Math.max(0, nowMicros);
  }

  @Override
  public long notBeyondMicros() {
    return Math.max(notBeyondMicros, nowMicros());
  }

  @Override
  public long lastMoment(long judgedMicros) {
    JsonNode line = next;
    return line != null && line.has("finished")
        ? Math.max(nowMicros(), Math.min(MOST_MICROS, line.path("finished").asLong()))
        : judgedMicros;
  }

  @Override
  public long settledMicros() {
    return tracker == null ? 0 : tracker.settledMicros();
  }

  @Override
  public Level level(int lead) {
    return tracker == null ? Level.UNKNOWN : tracker.level(lead);
  }

  @Override
  public boolean over() {
    return next == null;
  }

  @Override
  public OptionalDouble mainsHertz() {
    return tracker == null ? OptionalDouble.empty() : tracker.mainsHertz();
  }

  @Override
  public BoardSaid board() {
    return board;
  }

  @Override
  public Sampling sampling() {
    return new Sampling(samples, 0, tracker == null ? 0 : tracker.gaps(), worstLateMicros);
  }

  @Override
  public Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble {
    while (next != null && next.has("at")) {
      idle.pass();
    }
    JsonNode line = next;
    if (line == null) {
      return new Answer(Choice.END, "the record ends here");
    }
    for (Choice choice : Choice.values()) {
      String key =
          switch (choice) {
            case DO -> "begun";
            case SKIP -> "skipped";
            case END -> "ended";
          };
      if (line.has(key)) {
        if (!line.path(key).asText().equals(step.name())) {
          throw wrong(
              "the record goes on with the step "
                  + line.path(key).asText()
                  + ", the rehearsal with "
                  + step.name()
                  + "; replay it with the file it was made with");
        }
        Between between = new Between(micros(line, "from"), micros(line, "to"));
        if (between.latestMicros() < between.earliestMicros()) {
          throw wrong("a step that was begun before it was begun: to=" + between.latestMicros());
        }
        notBeyondMicros = Math.max(nowMicros(), between.latestMicros());
        advance();
        return new Answer(choice, line.path("reason").asText(), between);
      }
    }
    throw wrong("a line that has no place here");
  }

  @Override
  public Next look(Moment moment) {
    JsonNode line = next;
    if (line == null) {
      return Next.END;
    }
    return line.has("over") ? Next.valueOf(line.path("next").asText()) : Next.WAIT;
  }

  @Override
  public String observe(Step step, Idle idle) throws InstrumentTrouble {
    JsonNode over = next;
    if (over != null && over.has("over")) {
      advance();
    }
    while (next != null && next.has("at")) {
      idle.pass();
    }
    JsonNode line = next;
    if (line == null || !line.has("observed")) {
      return "";
    }
    advance();
    return line.path("observed").asText();
  }

  @Override
  public void close() {
    try {
      lines.close();
    } catch (IOException e) {
      // Nothing was to be written.
    }
  }
}
