package bellwire.app.landing;

import bellwire.analysis.loop.LandingPlan;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;

/** A landing file with another plan in it; all else stays as it was written, comments too. */
public final class PlannedFile {
  private static final String KEY = "as-planned";
  private static final Pattern OLD = Pattern.compile("[\"']?as-planned[\"']?\\s*:.*");

  private PlannedFile() {}

  /** A file's text with the plan under {@code as-planned}, in place of one that was there. */
  public static String text(String before, LandingPlan plan) {
    List<String> kept = new ArrayList<>();
    boolean within = false;
    for (String line : before.lines().toList()) {
      boolean topLevel = !line.isBlank() && !line.startsWith(" ") && !line.startsWith("#");
      within = topLevel ? OLD.matcher(line).matches() : within;
      if (!within || line.startsWith("#")) {
        kept.add(line);
      }
    }
    return String.join("\n", kept).stripTrailing() + "\n" + LandingYaml.plan(KEY, plan);
  }
}
