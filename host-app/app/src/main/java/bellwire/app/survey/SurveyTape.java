package bellwire.app.survey;

import bellwire.analysis.survey.Probe;
import bellwire.app.survey.Instrument.Identity;
import bellwire.app.survey.Instrument.Measured;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.function.DoubleConsumer;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import org.jspecify.annotations.Nullable;

/**
 * All that a board answered in a survey, one JSON object a line, compressed: the survey can be
 * computed again from it. docs/job-file.md states it.
 */
public final class SurveyTape {
  private static final ObjectMapper MAPPER =
      JsonMapper.builder()
          .enable(JsonWriteFeature.WRITE_NAN_AS_STRINGS)
          .disable(com.fasterxml.jackson.core.JsonGenerator.Feature.AUTO_CLOSE_TARGET)
          .serializationInclusion(JsonInclude.Include.NON_NULL)
          .build();

  private SurveyTape() {}

  /**
   * One answer; what does not belong to it is null.
   *
   * @param opened the board's identity
   * @param armed the answer to arming: empty where it is armed, else why not
   * @param measured readings, each with its probe
   * @param tripped ports at which the interlock tripped meanwhile
   */
  record Answer(
      @Nullable Identity opened,
      @Nullable String armed,
      @Nullable Measured measured,
      @Nullable Integer tripped) {}

  /** A board whose answers are taken down. */
  public static final class Recorder implements Instrument {
    private final Instrument board;
    private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    private final GZIPOutputStream packed;

    public Recorder(Instrument board) {
      this.board = board;
      try {
        packed = new GZIPOutputStream(bytes);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    /** The tape so far; nothing is taken down any more. */
    public byte[] tape() {
      try {
        packed.finish();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      return bytes.toByteArray();
    }

    private void take(Answer answer) {
      try {
        MAPPER.writeValue(packed, answer);
        packed.write('\n');
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    @Override
    public Identity open() throws InstrumentTrouble {
      Identity identity = board.open();
      take(new Answer(identity, null, null, null));
      return identity;
    }

    @Override
    public String arm() throws InstrumentTrouble {
      String refused = board.arm();
      take(new Answer(null, refused, null, null));
      return refused;
    }

    @Override
    public Measured measure(List<Probe> probes, DoubleConsumer progress)
        throws InstrumentTrouble, InterlockTripped {
      try {
        Measured measured = board.measure(probes, progress);
        take(new Answer(null, null, measured, null));
        return measured;
      } catch (InterlockTripped e) {
        take(new Answer(null, null, null, e.flags()));
        throw e;
      }
    }

    @Override
    public void close() {
      board.close();
    }
  }

  /**
   * What the board's self-check came to, by its answers to arming: an armed board has passed it.
   *
   * @return {@link BoardSaid#PASSED}, or why the board was not armed at its last refusal; empty
   *     where the tape is empty or damaged before, or the board was never to be armed
   */
  public static String selfCheck(byte[] tape) {
    String said = "";
    if (tape.length == 0) {
      return said;
    }
    try (MappingIterator<Answer> answers = Player.answers(tape)) {
      while (answers.hasNextValue()) {
        String armed = answers.nextValue().armed();
        if (armed != null) {
          said = armed;
          if (armed.isEmpty()) {
            return BoardSaid.PASSED;
          }
        }
      }
    } catch (IOException | RuntimeException e) {
      return said;
    }
    return said;
  }

  /** Answers as the board did. */
  public static final class Player implements Instrument {
    private final MappingIterator<Answer> answers;

    public Player(byte[] tape) throws IOException {
      answers = answers(tape);
    }

    private static MappingIterator<Answer> answers(byte[] tape) throws IOException {
      InputStream in = new GZIPInputStream(new ByteArrayInputStream(tape));
      JsonParser parser = MAPPER.createParser(in);
      return MAPPER.readerFor(Answer.class).readValues(parser);
    }

    private Answer next() throws InstrumentTrouble {
      try {
        if (answers.hasNextValue()) {
          return answers.nextValue();
        }
      } catch (IOException e) {
        throw new InstrumentTrouble("the survey's tape is damaged: " + e.getMessage());
      }
      throw off();
    }

    private static InstrumentTrouble off() {
      return new InstrumentTrouble(
          "the survey's tape answers other questions than are asked; it was made by another version"
              + " of Bellwire or with other options");
    }

    @Override
    public Identity open() throws InstrumentTrouble {
      Identity opened = next().opened();
      if (opened == null) {
        throw off();
      }
      return opened;
    }

    @Override
    public String arm() throws InstrumentTrouble {
      String armed = next().armed();
      if (armed == null) {
        throw off();
      }
      return armed;
    }

    @Override
    public Measured measure(List<Probe> probes, DoubleConsumer progress)
        throws InstrumentTrouble, InterlockTripped {
      Answer answer = next();
      Integer tripped = answer.tripped();
      if (tripped != null) {
        throw new InterlockTripped(tripped);
      }
      Measured measured = answer.measured();
      if (measured == null
          || !measured.readings().stream().map(r -> r.probe()).toList().equals(probes)) {
        throw off();
      }
      progress.accept(1);
      return measured;
    }

    @Override
    public void close() {
      // Nothing is held.
    }
  }
}
