package bellwire.app.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.TreeMap;

/** A landing file with another plan in it; all else stays as it was written, comments too. */
public final class PlannedFile {
  private static final String KEY = "as-planned:";

  private PlannedFile() {}

  /** A file's text with the plan under {@code as-planned}, in place of one that was there. */
  public static String text(String before, LandingPlan plan) {
    List<String> kept = new ArrayList<>();
    boolean within = false;
    for (String line : before.lines().toList()) {
      boolean topLevel = !line.isBlank() && !line.startsWith(" ") && !line.startsWith("#");
      within = topLevel ? line.startsWith(KEY) : within;
      if (!within) {
        kept.add(line);
      }
    }
    return String.join("\n", kept).stripTrailing() + "\n" + section(plan);
  }

  private static String section(LandingPlan plan) {
    StringBuilder out = new StringBuilder(KEY + "\n  landed:\n");
    for (LandingPlan.Landed one : plan.landed()) {
      out.append("    " + quoted(one.conductor()) + ": [")
          .append(Objects.requireNonNullElse(one.near(), "free"))
          .append(", " + Objects.requireNonNullElse(one.far(), "free") + "]\n");
    }
    jumpers(out, plan, "jumpers", Point.Side.FAR);
    jumpers(out, plan, "equipment-jumpers", Point.Side.NEAR);
    if (!plan.settings().isEmpty()) {
      out.append("  settings:\n");
      new TreeMap<>(plan.settings())
          .forEach((name, choice) -> out.append("    " + name + ": " + quoted(choice) + "\n"));
    }
    return out.toString();
  }

  private static void jumpers(StringBuilder out, LandingPlan plan, String key, Point.Side side) {
    List<String> pairs = new ArrayList<>();
    for (Control.Jumper jumper : plan.jumpers()) {
      if (jumper.side() == side) {
        pairs.add("[" + jumper.a() + ", " + jumper.b() + "]");
      }
    }
    if (!pairs.isEmpty()) {
      pairs.sort(null);
      out.append("  " + key + ": [" + String.join(", ", pairs) + "]\n");
    }
  }

  private static String quoted(String word) {
    return word.matches("[A-Za-z][A-Za-z0-9/-]*") && !word.matches("(?i)y|n|yes|no|on|off")
        ? word
        : "'" + word.replace("'", "''") + "'";
  }
}
