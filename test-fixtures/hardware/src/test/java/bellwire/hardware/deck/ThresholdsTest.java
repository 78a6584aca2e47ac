package bellwire.hardware.deck;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Limits: sensing-board-a.yaml. */
class ThresholdsTest {
  private static final long SEED = 20260802;
  private static final int BOARDS = 1000;
  private static final int GATE_BOARDS = 100;

  @TempDir Path directory;

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  @Test
  void everyThresholdStaysInsideItsLimits() throws Exception {
    System.out.println("ThresholdsTest seed=" + SEED);
    int boards = DeckRuns.all() ? BOARDS : GATE_BOARDS;
    List<Thresholds.Row> rows =
        new Thresholds(Netlist.revisionA(), BoardDescription.revisionA(), SEED)
            .run(directory, boards);
    NotesTable table = DeckRuns.table("thresholds");
    for (Thresholds.Row row : rows) {
      assertThat(row.lowest()).as(row.toString()).isGreaterThan(row.least());
      assertThat(row.highest()).as(row.toString()).isLessThan(row.most());
      // They must differ from board to board, or nothing was drawn.
      assertThat(row.highest() - row.lowest()).as(row.toString()).isPositive();
    }
    if (DeckRuns.write()) {
      table.write(Thresholds.text(rows, boards, SEED));
    }
    if (DeckRuns.all()) {
      assertThat(table.read()).isEqualTo(Thresholds.text(rows, boards, SEED));
    }
  }
}
