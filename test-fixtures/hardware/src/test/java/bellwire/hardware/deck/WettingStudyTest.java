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
class WettingStudyTest {
  @TempDir Path directory;

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  @Test
  void noSingleFaultLetsMoreOutThanTheLimitAndSixteenContactsAreSeen() throws Exception {
    BoardDescription board = BoardDescription.revisionA();
    List<WettingStudy.Row> rows = new WettingStudy(Netlist.revisionA(), board).run(directory);
    for (WettingStudy.Row row : rows) {
      assertThat(row.shortAmps()).as(row.toString()).isLessThan(board.limit("call-wetting-amps"));
    }
    BoardDescription.Value threshold = board.value("call-dry-threshold-volts");
    assertThat(rows.get(0).loadedVolts())
        .as(rows.get(0).toString())
        .isGreaterThan(threshold.nominal() + threshold.tolerance());
    NotesTable table = DeckRuns.table("wetting");
    if (DeckRuns.write()) {
      table.write(WettingStudy.text(rows));
    }
    assertThat(table.read()).isEqualTo(WettingStudy.text(rows));
  }
}
