package bellwire.fuzz;

import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingFile;
import bellwire.app.report.LandingCautions;
import bellwire.app.report.LandingCheckJson;
import bellwire.app.report.LandingText;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;

/** Landing files: read, checked by circuit analysis, written out; edited and read again. */
final class LandingTarget implements Target {
  private final Scratch scratch = new Scratch("landing");

  @Override
  public void take(byte[] input) throws IOException {
    Path file = scratch.file("landing.yaml", input);
    try {
      LandingFile landing = LandingFile.read(file);
      Installation planned = landing.planned();
      // A check costs more than a hundred readings.
      if (planned != null && Arrays.hashCode(input) % 64 == 0) {
        checked(landing, planned);
      }
    } catch (FileException e) {
      Refusals.check(e, input);
      return;
    } catch (IOException e) {
      // A survey's file that is named and is not there, or is none.
      Refusals.check(e, scratch.directory().toString());
      return;
    }
    edited(new String(input, StandardCharsets.UTF_8));
  }

  private static void checked(LandingFile landing, Installation planned) throws IOException {
    Simulation simulation = new Simulation(planned);
    var found = LandingCheck.check(planned, simulation);
    new LandingText(planned, simulation.states(), found).lines();
    LandingCheckJson.text(
        landing.title(), false, planned, simulation.states(), found, LandingCautions.LINES);
  }

  /** What the desk keeps of it reads back as the same. */
  private static void edited(String text) {
    LandingDraft draft;
    try {
      draft = LandingDraft.read("landing.yaml", text);
    } catch (FileException e) {
      Refusals.check(e, text.getBytes(StandardCharsets.UTF_8));
      return;
    }
    String written = draft.text();
    try {
      String again = LandingDraft.read("landing.yaml", written).text();
      Finding.unless(again.equals(written), "not the same again:\n%s\n%s", written, again);
    } catch (FileException e) {
      throw new AssertionError("not read again: " + e.getMessage() + "\n" + written, e);
    }
  }
}
