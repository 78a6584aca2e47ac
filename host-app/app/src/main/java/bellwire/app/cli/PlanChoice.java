package bellwire.app.cli;

import bellwire.analysis.loop.Installation;
import bellwire.app.landing.LandingFile;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which of a landing file's two plans a command works on. */
final class PlanChoice {
  @Option(
      names = "--as-found",
      description = "What was found on the old control, in place of what is planned.")
  boolean asFound;

  /** The installation that was asked for. */
  Installation installation(LandingFileArgument source, LandingFile landing)
      throws LandingFileArgument.Unusable {
    @Nullable Installation wanted = asFound ? landing.found() : landing.planned();
    if (wanted == null) {
      throw new LandingFileArgument.Unusable(source.file + ": " + missing(landing));
    }
    return wanted;
  }

  private String missing(LandingFile landing) {
    if (!asFound) {
      return "nothing under 'as-planned'; 'bellwire landing plan' proposes a landing, and --as-found"
          + " takes what was found";
    } else if (landing.asFound() == null) {
      return "nothing under 'as-found'; write down there what was found";
    }
    return "what closed the calls as found is not described; name the control that hung there with"
        + " 'old-control'";
  }
}
