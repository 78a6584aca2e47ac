package bellwire.hardware.deck;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Limits: sensing-board-a.yaml. */
class CrowbarTest {
  /** Of what the converter has to give, in amperes. */
  private static final double MOST_QUIET = 0.005;

  @TempDir Path directory;

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  @Test
  void noConductorCanBeFurtherFromAnotherThanItsLimit() throws Exception {
    BoardDescription board = BoardDescription.revisionA();
    BoardDescription.Value volts = board.value("crowbar-volts");
    List<Crowbar.Row> rows = new Crowbar(Netlist.revisionA(), board).run(directory);
    for (Crowbar.Row row : rows) {
      assertThat(row.quietAmps()).as(row.toString()).isLessThan(MOST_QUIET);
      assertThat(Arrays.stream(row.volts()).max().orElseThrow())
          .as(row.toString())
          .isLessThan(board.limit("conductor-volts"))
          .isLessThan(volts.nominal() + volts.tolerance());
    }
    NotesTable table = DeckRuns.table("crowbar");
    if (DeckRuns.write()) {
      table.write(Crowbar.text(rows));
    }
    assertThat(table.read()).isEqualTo(Crowbar.text(rows));
  }
}
