package bellwire.hardware.deck;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** 26 V and 28.3 V AC at the worst moment, relays closed, software frozen. */
class ForeignVoltageTest {
  @TempDir Path directory;
  private final BoardDescription board = BoardDescription.revisionA();
  private final ForeignVoltage study = new ForeignVoltage(Netlist.revisionA(), board);

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  /** The gate takes the cases that the table names as worst; otherwise all. */
  @Test
  void theLatchOpensTheRelaysInTimeAndEveryPinStaysInsideItsMaximum() throws Exception {
    NotesTable table = DeckRuns.table("foreign");
    String text = DeckRuns.write() ? "" : table.read();
    List<ForeignVoltage.Case> cases = new ArrayList<>();
    for (ForeignVoltage.Case each : ForeignVoltage.cases()) {
      if (DeckRuns.all() || (cases.size() < 4 && text.contains(each.toString()))) {
        cases.add(each);
      }
    }
    ForeignTable made = new ForeignTable();
    for (ForeignVoltage.Case each : cases) {
      ForeignVoltage.Times times = study.run(directory, each, made.stress());
      made.add(each, times);
      assertThat(times.latched() - times.outside())
          .as(each + ": from leaving the window to the latch, seconds")
          .isBetween(0.0, 1e-6 * board.limit("detect-micros"));
      assertThat(times.opened() - times.latched())
          .as(each + ": from the latch to open relays, seconds")
          .isLessThan(1e-6 * board.limit("relay-open-micros"));
      assertThat(times.opened()).as(each + ": to open relays, seconds").isLessThan(2e-3);
    }
    assertThat(made.stress().rows()).isNotEmpty();
    for (Stress.Row row : made.stress().rows()) {
      assertThat(row.share()).as(row.toString()).isLessThan(1);
    }
    if (DeckRuns.write()) {
      table.write(made.text());
    }
    if (DeckRuns.all()) {
      assertThat(table.read()).isEqualTo(made.text());
    }
  }
}
