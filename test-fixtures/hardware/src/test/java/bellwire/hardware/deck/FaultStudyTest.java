package bellwire.hardware.deck;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Limits: hardware-notes/README.md, "Limits in the file". */
class FaultStudyTest {
  private static final long SEED = 20260801;
  private static final int SAMPLE = 12;

  @TempDir Path directory;
  private final BoardDescription board = BoardDescription.revisionA();
  private final FaultStudy study = new FaultStudy(Netlist.revisionA(), new Corner(board, true));
  private final NotesTable table = DeckRuns.table("faults");

  @BeforeEach
  void needsNgspice() throws InterruptedException {
    DeckRuns.requireNgspice();
  }

  /** The gate runs what the table lists as worst and a few drawn from the rest; otherwise all. */
  @Test
  void noSingleFaultExceedsTheLimitsAndTheTableSaysSo() throws Exception {
    List<FaultStudy.Fault> faults = DeckRuns.all() ? study.faults() : listedAndDrawn();
    List<FaultStudy.Worst> worst = study.run(directory, faults);
    for (FaultStudy.Worst each : worst) {
      assertThat(each.amps())
          .as(each.toString())
          .isLessThanOrEqualTo(board.limit("conductor-amps"));
      assertThat(each.volts())
          .as(each.toString())
          .isLessThanOrEqualTo(board.limit("conductor-volts"));
    }
    if (DeckRuns.write()) {
      table.write(FaultTable.text(worst));
    }
    String text = table.read();
    if (DeckRuns.all()) {
      assertThat(text).isEqualTo(FaultTable.text(worst));
    }
    for (FaultStudy.Worst each : FaultTable.notable(worst)) {
      assertThat(text).contains(FaultTable.row(each));
    }
  }

  /** A check of the check: without its limiters the board fails it. */
  @Test
  void withoutALimiterInTheGuardBusTheStuckDriverIsFound() throws Exception {
    FaultStudy.Fault stuck =
        study.faults().stream()
            .filter(fault -> fault.toString().equals("U210 output at the upper rail"))
            .findFirst()
            .orElseThrow();
    var altered = new LinkedHashMap<>(stuck.altered());
    altered.put("R_R210", 4.0);
    List<FaultStudy.Worst> worst =
        study.run(directory, List.of(new FaultStudy.Fault(stuck.part(), stuck.what(), altered)));
    assertThat(worst.get(0).amps()).isGreaterThan(2 * board.limit("conductor-amps"));
  }

  private List<FaultStudy.Fault> listedAndDrawn() throws Exception {
    List<FaultStudy.Fault> all = study.faults();
    String text = table.read();
    List<FaultStudy.Fault> some =
        all.stream()
            .filter(fault -> text.contains("\n| " + fault + " |"))
            .sorted(Comparator.comparingInt(fault -> text.indexOf("\n| " + fault + " |")))
            .limit(SAMPLE)
            .collect(Collectors.toCollection(ArrayList::new));
    System.out.println("FaultStudyTest seed=" + SEED);
    Random random = new Random(SEED);
    while (some.size() < 2 * SAMPLE) {
      some.add(all.get(random.nextInt(all.size())));
    }
    return some;
  }
}
