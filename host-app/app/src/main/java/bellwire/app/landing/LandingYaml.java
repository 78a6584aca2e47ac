package bellwire.app.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Parts of a landing file as YAML. */
final class LandingYaml {
  private LandingYaml() {}

  /** A plan under its key. */
  static String plan(String key, LandingPlan plan) {
    StringBuilder out =
        new StringBuilder(key + ":\n  landed:" + (plan.landed().isEmpty() ? " {}\n" : "\n"));
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

  /** A word that YAML reads as it stands. */
  static String quoted(String word) {
    return word.matches("[A-Za-z][A-Za-z0-9/-]*") && !word.matches("(?i)y|n|yes|no|on|off")
        ? word
        : "'" + word.replace("'", "''") + "'";
  }
}
