package bellwire.app.desk.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import bellwire.app.job.Fact;
import bellwire.app.job.JobRecords;
import bellwire.app.job.SurveyRow;
import bellwire.app.visit.Change;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That a job of many surveys answers as quickly as one of few. {@code -Dbellwire.surveys=N}. */
@Tag("window")
@Tag("alone")
class ManySurveysTest {
  private static final int SURVEYS = Integer.getInteger("bellwire.surveys", 5);
  private static final int CHANGES = 10;

  @TempDir Path directory;

  @Test
  void aChangeIsNotHeldUpByTheSurveysThatAreThere() throws Exception {
    DeskRig.require();
    try (DeskRig rig = DeskRig.demo(directory)) {
      rig.page("survey");
      rig.press("F5");
      rig.until("the survey is over", 60, () -> rig.state("survey").contains("finding"));
      SurveyRow one = rig.visit().ask(JobRecords::surveys).get(10, TimeUnit.SECONDS).get(0);
      for (int i = 1; i < SURVEYS; i++) {
        rig.visit().change(Change.TICKS, all -> all.add(one)).get(10, TimeUnit.SECONDS);
      }
      change(rig, 0);
      long began = System.nanoTime();
      int[] made = {0};
      long stalls =
          rig.fewestStalls(
              0,
              () -> {
                for (int i = 0; i < CHANGES; i++) {
                  change(rig, ++made[0]);
                }
              });
      System.out.printf(
          Locale.ROOT,
          "ManySurveysTest: %d surveys of %d kB, a change takes %.1f ms until the pages have read it%n%s",
          SURVEYS,
          one.json().length() / 1000,
          (System.nanoTime() - began) * 1e-6 / made[0],
          rig.watch().histogram());
      assertThat(stalls).as(rig.watch().histogram()).isZero();
    }
  }

  /** A fact is changed, and every page has asked for what it shows. */
  private static void change(DeskRig rig, int number) throws Exception {
    rig.visit()
        .change(
            Change.FACTS,
            all -> {
              all.fact(Fact.NOTES, "note " + number);
              return number;
            })
        .get(10, TimeUnit.SECONDS);
    rig.robot().waitForIdle();
    List<Long> unused = List.of(rig.visit().ask(all -> 1L).get(60, TimeUnit.SECONDS));
    rig.robot().waitForIdle();
  }
}
