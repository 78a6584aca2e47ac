package bellwire.app.rehearsal;

import bellwire.app.survey.BoardSaid;
import bellwire.link.Message;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.MinimalPrettyPrinter;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.Consumer;
import java.util.zip.GZIPOutputStream;

/**
 * Writes a rehearsal's record: lines of JSON, compressed where the file's name ends in .gz.
 * docs/rehearsal-files.md states them. A disk that fills ends the record and not the rehearsal.
 */
public final class TraceWriter implements CallRecord, AutoCloseable {
  static final String KIND = "bellwire-trace";
  static final String BOARD = "board";
  static final int VERSION = 1;

  /** A write to the record's file. */
  private interface Line {
    void write(JsonGenerator json) throws IOException;
  }

  private final String name;
  private final Consumer<String> notes;
  private final JsonGenerator json;
  private boolean failed;

  private TraceWriter(String name, Consumer<String> notes, JsonGenerator json) {
    this.name = name;
    this.notes = notes;
    this.json = json;
  }

  /**
   * @param notes told, once, that the record has ended early
   */
  public static TraceWriter open(Path file, Rehearsal rehearsal, Consumer<String> notes)
      throws IOException {
    OutputStream out = new BufferedOutputStream(Files.newOutputStream(file), 1 << 16);
    if (file.toString().endsWith(".gz")) {
      out = new GZIPOutputStream(out, 1 << 14, true);
    }
    return open(file.toString(), out, rehearsal, notes);
  }

  /** Writes a compressed record to a stream. */
  public static TraceWriter packed(OutputStream out, Rehearsal rehearsal, Consumer<String> notes)
      throws IOException {
    return open("the record", new GZIPOutputStream(out, 1 << 14, true), rehearsal, notes);
  }

  private static TraceWriter open(
      String name, OutputStream out, Rehearsal rehearsal, Consumer<String> notes)
      throws IOException {
    JsonGenerator json = new JsonFactory().createGenerator(out);
    json.setPrettyPrinter(new MinimalPrettyPrinter("\n"));
    TraceWriter writer = new TraceWriter(name, notes, json);
    writer.line(
        true,
        g -> {
          g.writeNumberField(KIND, VERSION);
          g.writeStringField("rehearsal", rehearsal.name());
          g.writeStringField("feed", rehearsal.feed().name().toLowerCase(java.util.Locale.ROOT));
          g.writeArrayFieldStart("terminals");
          for (Terminal t : rehearsal.terminals()) {
            g.writeString(t.name());
          }
          g.writeEndArray();
        });
    return writer;
  }

  @Override
  public void board(BoardSaid said) {
    line(
        true,
        g -> {
          g.writeStringField(BOARD, said.revision());
          g.writeStringField("agent", said.program());
          g.writeStringField("self-check", said.selfCheck());
        });
  }

  @Override
  public void samples(Message.CallSamples s) {
    line(
        false,
        g -> {
          g.writeNumberField("at", s.firstMicros());
          runs(g, "delta", s.deltaMicros());
          runs(g, "late", s.lateMicros());
          runs(g, "took", s.tookMicros());
          runs(g, "word", s.word());
        });
  }

  /** Values as pairs: a value and how often it follows itself. */
  private static void runs(JsonGenerator g, String name, int[] values) throws IOException {
    g.writeArrayFieldStart(name);
    for (int i = 0; i < values.length; ) {
      int end = i + 1;
      while (end < values.length && values[end] == values[i]) {
        end++;
      }
      g.writeNumber(values[i]);
      g.writeNumber(end - i);
      i = end;
    }
    g.writeEndArray();
  }

  @Override
  public void begun(Step step, long earliestMicros, long latestMicros, String note) {
    operator("begun", step, earliestMicros, latestMicros, note);
  }

  @Override
  public void skipped(Step step, long earliestMicros, long latestMicros, String reason) {
    operator("skipped", step, earliestMicros, latestMicros, reason);
  }

  @Override
  public void ended(Step step, long earliestMicros, long latestMicros, String reason) {
    operator("ended", step, earliestMicros, latestMicros, reason);
  }

  private void operator(String what, Step step, long earliest, long latest, String reason) {
    line(
        true,
        g -> {
          g.writeStringField(what, step.name());
          g.writeNumberField("from", earliest);
          g.writeNumberField("to", latest);
          g.writeStringField("reason", reason);
        });
  }

  @Override
  public void over(Step step, Operator.Next next) {
    line(
        true,
        g -> {
          g.writeStringField("over", step.name());
          g.writeStringField("next", next.name());
        });
  }

  @Override
  public void observed(Step step, String words) {
    line(
        true,
        g -> {
          g.writeStringField("observed", words);
          g.writeStringField("step", step.name());
        });
  }

  @Override
  public void finished(long micros) {
    line(true, g -> g.writeNumberField("finished", micros));
  }

  private void line(boolean flush, Line line) {
    if (failed) {
      return;
    }
    try {
      json.writeStartObject();
      line.write(json);
      json.writeEndObject();
      if (flush) {
        json.flush();
      }
    } catch (IOException e) {
      fail(e);
    }
  }

  private void fail(IOException e) {
    failed = true;
    notes.accept(
        "the record ends here, the rehearsal goes on: "
            + name
            + " cannot be written: "
            + e.getMessage());
  }

  /** Whether everything was written. */
  public boolean whole() {
    return !failed;
  }

  @Override
  public void close() {
    try {
      json.close();
    } catch (IOException e) {
      if (!failed) {
        fail(e);
      }
    }
  }
}
