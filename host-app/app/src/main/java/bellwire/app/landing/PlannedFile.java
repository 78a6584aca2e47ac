package bellwire.app.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** A landing file with another plan in it; all else stays as it was written, comments too. */
public final class PlannedFile {
  private static final String KEY = "as-planned:";
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
    return String.join("\n", kept).stripTrailing() + "\n" + section(plan);
  }

  private static String section(LandingPlan plan) {
    StringBuilder out = new StringBuilder(KEY + "\n  landed:\n");
    for (LandingPlan.Landed one : plan.landed()) {
      out.append("    " + quoted(one.conductor()) + ": [")
          .append(terminal(one.near()))
          .append(", " + terminal(one.far()) + "]\n");
    }
    jumpers(out, plan, "jumpers", Point.Side.FAR);
    jumpers(out, plan, "equipment-jumpers", Point.Side.NEAR);
    if (!plan.settings().isEmpty()) {
      out.append("  settings:\n");
      new TreeMap<>(plan.settings())
          .forEach(
              (name, choice) -> out.append("    " + quoted(name) + ": " + quoted(choice) + "\n"));
    }
    return out.toString();
  }

  private static void jumpers(StringBuilder out, LandingPlan plan, String key, Point.Side side) {
    List<String> pairs = new ArrayList<>();
    for (Control.Jumper jumper : plan.jumpers()) {
      if (jumper.side() == side) {
        pairs.add("[" + terminal(jumper.a()) + ", " + terminal(jumper.b()) + "]");
      }
    }
    if (!pairs.isEmpty()) {
      pairs.sort(null);
      out.append("  " + key + ": [" + String.join(", ", pairs) + "]\n");
    }
  }

  /** Y and N stay as they are: a landing file has no truth values. */
  private static String terminal(@Nullable String name) {
    String word = Objects.requireNonNullElse(name, "free");
    return word.matches("[YyNn]") ? word : quoted(word);
  }

  private static String quoted(String word) {
    return word.matches("[A-Za-z][A-Za-z0-9/-]*") && !word.matches("(?i)y|n|yes|no|on|off")
        ? word
        : "'" + word.replace("'", "''") + "'";
  }
}
