package bellwire.app.desk.survey;

import bellwire.analysis.attached.Landing;
import bellwire.analysis.attached.LandingChange;
import bellwire.analysis.attached.LandingComparison;
import bellwire.app.report.LandingJson;
import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Two surveys in place, before unlanding and after relanding. */
final class Comparing {
  private Comparing() {}

  static String words(@Nullable Seen before, Seen after) {
    if (!after.row().inPlace()) {
      return "Only surveys in place show the landing; this one was made with the conductors lifted.";
    }
    if (before == null) {
      return "There is no earlier survey in place to compare with. Survey in place before anything"
          + " is lifted, and again after relanding.";
    }
    try {
      Landing was = LandingJson.of("the survey of " + before.time(), before.row().json());
      Landing is = LandingJson.of("the survey of " + after.time(), after.row().json());
      return text(before.time(), was, is, new LandingComparison(was, is).changes());
    } catch (IOException e) {
      return String.valueOf(e.getMessage());
    }
  }

  private static String text(String since, Landing was, Landing is, List<LandingChange> changes) {
    StringBuilder out = new StringBuilder();
    if (was.arms().isEmpty() || is.arms().isEmpty()) {
      out.append("\u25C7 Not both with the tie plug on: a loose clamp does not show.\n\n");
    }
    if (changes.isEmpty()) {
      return out + "\u25CB The landing is as on " + since + ", in what was measured.";
    }
    out.append("\u25B2 The landing is not as on " + since + ":\n");
    for (LandingChange change : changes) {
      out.append("\n\u25B2 " + change.kind().title() + ": " + change.words())
          .append("\nWhat to do: " + change.kind().remedy() + "\n");
    }
    return out.toString().stripTrailing();
  }
}
