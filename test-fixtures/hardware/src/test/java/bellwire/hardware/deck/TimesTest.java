package bellwire.hardware.deck;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Limits: sensing-board-a.yaml; an opening's time, theory (94). */
class TimesTest {
  @TempDir Path directory;

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  @Test
  void theCircuitKeepsTheTimesThatTheProgramsRelyOn() throws Exception {
    List<Times.Row> rows =
        new Times(Netlist.revisionA(), BoardDescription.revisionA()).run(directory);
    for (Times.Row row : rows) {
      assertThat(row.shortest()).as(row.toString()).isBetween(row.least(), row.micros());
      assertThat(row.longest()).as(row.toString()).isBetween(row.micros(), row.most());
    }
    NotesTable table = DeckRuns.table("times");
    if (DeckRuns.write()) {
      table.write(Times.text(rows));
    }
    assertThat(table.read()).isEqualTo(Times.text(rows));
  }
}
