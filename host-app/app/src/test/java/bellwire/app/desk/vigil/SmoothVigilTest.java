package bellwire.app.desk.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.desk.DeskRig;
import bellwire.app.job.CableRow;
import bellwire.app.job.InventedVigils;
import bellwire.app.job.JobFile;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.SurveyListener;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.vigil.VigilPicture;
import bellwire.app.visit.Boards;
import bellwire.app.visit.Running;
import bellwire.app.visit.SurveyOrder;
import bellwire.board.CodedPlug;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * That a day's vigil is shown, zoomed and moved without holding the event thread, while the
 * simulated board surveys a cable. The day is always whole: {@code -Dbellwire.moves=N} moves
 * longer.
 */
@Tag("alone")
class SmoothVigilTest {
  private static final long SEED = 1;

  /**
   * Wall time is not for a gate whose machine does other work: it lets a tenth of the moves pass,
   * where a reading or a drawing on the event thread would show at each. {@code
   * -Dbellwire.stalls=0}, on a machine that does nothing else, lets none.
   */
  private static final int MOST = Integer.getInteger("bellwire.stalls", 6);

  private static final int MOVES = Integer.getInteger("bellwire.moves", 40);

  @TempDir Path directory;

  @Test
  void aDayIsZoomedAndMovedWhileACableIsSurveyed() throws Exception {
    DeskRig.require();
    Path job = directory.resolve("day.bellwire");
    InventedVigils.Day day;
    long cable;
    try (JobFile file = JobFile.open(job)) {
      cable = file.records().put(new CableRow(0, "18-16", "18 AWG", 25, 20, "furnace", "wall", ""));
      InventedVigils.continuity(file, job, 24, SEED);
      day = InventedVigils.calls(file, job, 24, SEED);
    }
    try (DeskRig rig = DeskRig.job(job)) {
      rig.visit().boards(new Boards.Demo(false));
      rig.page("vigil");
      rig.click("vigil.toKept");
      StripChart chart = rig.find("vigil.kept.chart", StripChart.class);
      rig.until("the chart", 60, () -> chart.picture() != null);
      long stalls = rig.fewestStalls(MOST, () -> round(rig, chart, job, day, cable));
      assertThat(stalls).as(rig.watch().worstEvent()).isLessThanOrEqualTo(MOST);
    }
  }

  private static void round(
      DeskRig rig, StripChart chart, Path job, InventedVigils.Day day, long cable) {
    Surveys surveys = new Surveys(rig, cable);
    for (long vigil = day.vigil(); vigil >= 1; vigil--) {
      long wanted = vigil;
      rig.run(w -> chart.show(job, wanted, false));
      rig.until("all of it", 120, () -> whole(chart, day.lengthMicros()));
      moves(rig, chart);
    }
    int made = surveys.stop();
    System.out.printf(
        Locale.ROOT,
        "SmoothVigilTest: 24 h of 16 conductors, %d moves, %d surveys meanwhile, seed=%d%n%s",
        MOVES,
        made,
        SEED,
        rig.watch().histogram());
    assertThat(made).as("surveys to the end of the moves").isPositive();
    assertThat(rig.watch().events()).isGreaterThan(MOVES);
    rig.until("the board let go", 60, () -> rig.visit().running().isEmpty());
  }

  private static boolean whole(StripChart chart, long lengthMicros) {
    VigilPicture picture = chart.picture();
    return picture != null
        && picture.toMicros() - picture.fromMicros() >= lengthMicros
        && picture.lanes().stream()
            .anyMatch(lane -> !lane.stretches().isEmpty() || !lane.events().isEmpty());
  }

  /** By keys and by the wheel, faster than drawings come. */
  private static void moves(DeskRig rig, StripChart chart) {
    rig.robot().focusAndWaitForFocusGain(chart);
    String[] keys = {"EQUALS", "RIGHT", "EQUALS", "LEFT", "DOWN", "MINUS", "H", "M", "PAGE_DOWN"};
    for (int i = 0; i < MOVES; i++) {
      if (i % 7 == 6) {
        rig.robot().rotateMouseWheel(chart, i % 2 == 0 ? 1 : -2);
      } else {
        rig.press(keys[i % keys.length]);
      }
    }
    rig.press("HOME");
  }

  /** Surveys on the simulated bench, as fast as it goes: one after the other until stopped. */
  private static final class Surveys {
    private final DeskRig rig;
    private final long cable;
    private final AtomicInteger done = new AtomicInteger();
    private volatile boolean over;
    private volatile Running<SurveyRow> running;

    Surveys(DeskRig rig, long cable) {
      this.rig = rig;
      this.cable = cable;
      next();
    }

    private void next() {
      SurveyOptions options =
          new SurveyOptions(
              0,
              EnumSet.of(FarEndKind.CODED, FarEndKind.TIE),
              2_000_000,
              180_000_000,
              0,
              60_000_000,
              BoardModels.plug(CodedPlug.nominal()),
              new CableFacts(Gauge.awg(18), Double.NaN, 21, 3),
              Criteria.standard());
      running =
          rig.visit()
              .survey(
                  new SurveyOrder(cable, Stage.AS_FOUND, false, options, Map.of(), 60),
                  SurveyListener.silent());
      running
          .done()
          .whenComplete(
              (row, failure) -> {
                if (failure == null) {
                  done.incrementAndGet();
                  if (!over) {
                    next();
                  }
                }
              });
    }

    /** How many were made; the last one may be under way. */
    int stop() {
      boolean atWork = !running.done().isCompletedExceptionally();
      over = true;
      running.cancel();
      return atWork ? done.get() + 1 : 0;
    }
  }
}
