package bellwire.hardware.deck;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SettlingTest {
  /** What the host gives a reading at rest: CurrentReader, RatioReader; the self-check 4 ms. */
  private static final double GIVEN_MICROS = 1000;

  private static final Settling.Case HIGH = new Settling.Case("high", 50e6, "AIN_TI", "AIN_COM");
  private static final Settling.Case LOW =
      new Settling.Case("low", 700, "AIN_SENSE_A", "AIN_SENSE_B");

  @TempDir Path directory;
  private final BoardDescription board = BoardDescription.revisionA();

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  @Test
  void everyRangeIsAtRestWhenTheHostReadsIt() throws Exception {
    Settling study = new Settling(Netlist.revisionA(), board, Set.of());
    List<Settling.Row> rows = new ArrayList<>();
    for (Settling.Case each : DeckRuns.all() ? Settling.cases() : List.of(LOW, HIGH)) {
      rows.add(study.run(directory, each));
    }
    for (Settling.Row row : rows) {
      // Nothing settles before 14 time constants of the cable at the limiters.
      assertThat(row.micros()).as(row.toString()).isBetween(20.0, GIVEN_MICROS);
    }
    // 40 nA in 1 Mohm, and some 0.1 nA that the models leak and nothing here subtracts.
    assertThat(
            rows.stream().filter(row -> row.what().equals(HIGH)).findFirst().orElseThrow().volts())
        .isBetween(-0.0401, -0.0399);
    NotesTable table = DeckRuns.table("settling");
    if (DeckRuns.write()) {
      table.write(Settling.text(rows, study.boundVolts(), GIVEN_MICROS));
    }
    if (DeckRuns.all()) {
      assertThat(table.read()).isEqualTo(Settling.text(rows, study.boundVolts(), GIVEN_MICROS));
    }
  }

  /** The cable's charge would have to go through 1 Mohm, the amplifier at its rail. */
  @Test
  void withoutTheDiodesAcrossItsFeedbackTheHighRangeComesTooLate() throws Exception {
    Settling bare = new Settling(Netlist.revisionA(), board, Set.of("D303", "D304"));
    assertThat(bare.run(directory, HIGH).micros()).isGreaterThan(GIVEN_MICROS);
  }
}
