package bellwire.soak;

import bellwire.analysis.vigil.ConductorTrend;
import bellwire.analysis.vigil.ConductorTrend.Course;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.app.job.JobFileException;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.VigilLoader;
import bellwire.simbench.cable.Truth;
import java.nio.file.Path;

/** Holds a trend's resistances to those that are there, which do not change. */
final class TrendJudge {
  /** Of a normal distribution one in five hundred million is further off: each reading counts. */
  private static final double MOST_SIGMAS = 6;

  /** Fresh contacts at both ends. */
  private static final double MOST_CONTACT_OHMS = 0.06;

  /** A change that noise alone does not make. */
  private static final double CHANGE_OHMS = 0.05;

  private final Scenario scenario;
  private final Truth truth;
  private final Tally tally;

  TrendJudge(Scenario scenario, World world, Tally tally) {
    this.scenario = scenario;
    this.tally = tally;
    truth = world.device().copper().truth();
  }

  void judge(Path file, long vigil) throws JobFileException {
    StoredVigil stored;
    try {
      stored = VigilLoader.load(file, vigil, StoredVigil.Part.ALL, Counting.EACH, share -> {});
    } catch (BadVigil e) {
      tally.count("trends with nothing to analyse", 1);
      return;
    }
    stored.series().forEach(this::readings);
    stored.trend().ifPresent(summary -> summary.conductors().forEach(this::claims));
  }

  private void readings(TrendSeries series) {
    if ((scenario.sound() >>> series.port() & 1) == 0) {
      throw new Broken("a trend of what was not asked for: port=" + series.port());
    }
    double wire = truth.wire(series.port()).ohms();
    double spare = MOST_SIGMAS * series.readingOhms();
    for (double ohms : series.ohms()) {
      if (ohms < wire - spare || ohms > wire + MOST_CONTACT_OHMS + spare) {
        throw new Broken(
            "wrong resistance in a trend: ohms="
                + ohms
                + " u="
                + series.readingOhms()
                + " truth="
                + wire);
      }
    }
    tally.count("trend readings", series.ohms().length);
  }

  private void claims(ConductorTrend said) {
    if (said.open() > 0) {
      throw new Broken("open in a trend, though it never was: " + said);
    }
    boolean moves = said.course() == Course.STEP || said.course() == Course.SLOPE;
    tally.count("trends " + said.course(), 1);
    if (moves && Math.abs(said.change().value()) > CHANGE_OHMS) {
      throw new Broken("a change that is not there: " + said);
    }
  }
}
