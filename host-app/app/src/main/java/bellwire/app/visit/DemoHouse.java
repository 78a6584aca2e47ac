package bellwire.app.visit;

import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;

/**
 * The demo's job: an invented house whose cable, control and faults are the simulated benches of
 * {@link Boards.Demo}. Nothing has been measured in it yet.
 */
public final class DemoHouse {
  private static final List<String> COLOURS =
      List.of("red", "white", "green", "blue", "yellow", "brown", "orange", "black");

  private DemoHouse() {}

  /** Opens a job file on the demo's benches, and furnishes it where nothing is in it yet. */
  public static Visit open(Path file) throws JobFileException {
    Visit visit = Visit.open(file, new Boards.Demo(true));
    var unused = visit.ask(DemoHouse::furnish);
    return visit;
  }

  private static boolean furnish(JobRecords job) throws JobFileException {
    if (!job.cables().isEmpty()) {
      return false;
    }
    job.fact(Fact.CUSTOMER, "The house at the mill brook (a demonstration, invented)");
    job.fact(Fact.PLACE, "Upstairs landing; furnace in the cellar");
    job.fact(Fact.SYSTEM, "Gas furnace with cooling, one transformer");
    job.fact(Fact.OLD_CONTROL, "One stage of heat and cooling, on batteries");
    job.fact(Fact.NEW_CONTROL, "One stage of heat and cooling, fed from C");
    job.fact(Fact.REASON, "The heat comes on some days only; a new control is wanted");
    job.fact(Fact.MAINS_HERTZ, "60");
    long cable =
        job.put(
            new CableRow(
                0, "18-8", "18 AWG", Double.NaN, 21, "furnace, cellar", "upstairs landing", ""));
    for (int port = 0; port < COLOURS.size(); port++) {
      job.put(new ConductorRow(cable, port, COLOURS.get(port), COLOURS.get(port), ""));
    }
    long now = System.currentTimeMillis() * 1000;
    job.put(new LandingRow(0, cable, now, landing()));
    return true;
  }

  private static String landing() {
    try (InputStream in = DemoHouse.class.getResourceAsStream("demo-landing.yaml")) {
      if (in == null) {
        throw new IllegalStateException("missing resource demo-landing.yaml");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
