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
class HeartbeatStopTest {
  private static final int GATE_FAULTS = 6;

  @TempDir Path directory;
  private final BoardDescription board = BoardDescription.revisionA();
  private final HeartbeatStop study = new HeartbeatStop(Netlist.revisionA(), board);

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  @Test
  void withoutAnEdgeTheRelaysOpenInTimeWhateverFails() throws Exception {
    double least = 1e-6 * board.limit("heartbeat-micros");
    double most = 1e-6 * board.limit("heartbeat-open-micros");
    List<HeartbeatStop.Row> corners = study.run(directory, study.corners());
    for (HeartbeatStop.Row row : corners) {
      assertThat(row.seconds()).as(row.toString()).isBetween(least, most);
    }
    assertThat(corners.get(1).seconds()).isLessThan(corners.get(2).seconds());
    List<HeartbeatStop.Case> cases = study.faults();
    List<HeartbeatStop.Row> faults =
        study.run(directory, DeckRuns.all() ? cases : cases.subList(0, GATE_FAULTS));
    for (HeartbeatStop.Row row : faults) {
      assertThat(row.seconds()).as(row.toString()).isLessThan(most);
    }
    NotesTable table = DeckRuns.table("heartbeat");
    if (DeckRuns.write()) {
      table.write(HeartbeatStop.text(corners, faults));
    }
    String text = table.read();
    for (HeartbeatStop.Row row : corners) {
      assertThat(text).contains(row.toString());
    }
    if (DeckRuns.all()) {
      assertThat(text).isEqualTo(HeartbeatStop.text(corners, faults));
    }
  }
}
