package bellwire.app.cli;

import bellwire.app.vigil.VigilSite;
import java.time.ZonedDateTime;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What may be said beforehand of a building that is left without its heat. */
final class VigilSiteOptions {
  @Option(
      names = "--people",
      paramLabel = "WORDS",
      description = "Who is in the building meanwhile; asked for where not given.")
  private @Nullable String people;

  @Option(
      names = "--coldest",
      paramLabel = "TEMP",
      description = "Outdoors at the coldest, such as '8 C' or '46 F'; asked for where not given.")
  private @Nullable String coldest;

  @Option(
      names = "--heat-by",
      paramLabel = "TIME",
      description = "When the heat has to be back, such as '17:30'; asked for where not given.")
  private @Nullable String heatBy;

  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec = CommandSpec.create();

  /**
   * @param heated whether the heat stays on, so that nothing of this is asked
   */
  void check(boolean heated) {
    if (heated && (people != null || coldest != null || heatBy != null)) {
      throw wrong(
          "--people, --coldest and --heat-by go with a vigil that takes the heat away, not with"
              + " calls");
    }
    if (coldest != null && VigilSite.celsius(coldest).isEmpty()) {
      throw wrong("--coldest takes -60 C to 60 C, such as '8 C' or '46 F', not '" + coldest + "'");
    }
    if (heatBy != null && VigilSite.next(heatBy, ZonedDateTime.now()).isEmpty()) {
      throw wrong("--heat-by takes a time of day, such as '17:30', not '" + heatBy + "'");
    }
  }

  VigilQuestions.Said said() {
    return new VigilQuestions.Said(people, coldest, heatBy);
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
