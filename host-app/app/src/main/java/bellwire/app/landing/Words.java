package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Words of people as a file can hold them: one line, nothing that YAML refuses. */
final class Words {
  private static final String REFUSED = "[\\p{Cc}\\p{Cs}\\u2028\\u2029\\uFEFF\\uFFFE\\uFFFF]+";

  private Words() {}

  static String line(String words, String absent) {
    String tidy = words.replaceAll(REFUSED, " ").strip().trim();
    return tidy.isBlank() ? absent : tidy;
  }

  static @Nullable String line(@Nullable String words) {
    String tidy = words == null ? "" : line(words, "");
    return tidy.isEmpty() ? null : tidy;
  }

  /** Names of conductors are taken as they are where they need no change; they stay unique. */
  static SurveyedCable tidy(SurveyedCable s) {
    Map<String, String> names = new HashMap<>();
    for (Cable.Conductor c : s.cable().conductors()) {
      String name = line(c.name(), "conductor");
      while (names.containsValue(name) || name.equals(CableReader.METAL)) {
        name = name + " again";
      }
      names.put(c.name(), name);
    }
    List<Cable.Conductor> conductors = new ArrayList<>();
    for (Cable.Conductor c : s.cable().conductors()) {
      conductors.add(
          new Cable.Conductor(
              named(names, c.name()),
              line(c.nearColour()),
              line(c.farColour()),
              c.ohms(),
              c.uOhms(),
              c.brokenAt()));
    }
    List<Cable.Bridge> bridges = new ArrayList<>();
    for (Cable.Bridge b : s.cable().bridges()) {
      String other = b.b();
      bridges.add(
          new Cable.Bridge(
              named(names, b.a()), other == null ? null : named(names, other), b.ohms(), b.at()));
    }
    Map<String, String> doubts = new HashMap<>();
    s.doubtful().forEach((name, why) -> doubts.put(named(names, name), line(why, "doubtful")));
    return new SurveyedCable(
        new Cable(line(s.cable().name(), ""), conductors, bridges),
        renamed(names, s.ports()),
        renamed(names, s.far()),
        doubts,
        s.metalChecked());
  }

  private static String named(Map<String, String> names, String name) {
    return names.getOrDefault(name, name);
  }

  private static <V> Map<String, V> renamed(Map<String, String> names, Map<String, V> values) {
    Map<String, V> out = new HashMap<>();
    values.forEach((name, value) -> out.put(named(names, name), value));
    return out;
  }
}
