package bellwire.app.landing;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.loop.Cable;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import bellwire.yaml.Spelling;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Reads the cable of a landing: from a survey's result, or as the technician describes it. */
final class CableReader {
  static final int MAX_CONDUCTORS = 32;

  /** Every two of sixteen conductors and metal. */
  private static final int MAX_TOUCHING = 136;

  static final double MOST_OHMS = 1e12;
  private static final double LEAST_TOUCH_OHMS = 1e-3;
  private static final double CELSIUS = 22;
  static final String METAL = "metal";

  private CableReader() {}

  /**
   * @param directory that a survey's file is named from
   */
  static SurveyedCable read(Section s, Path directory) throws FileException, IOException {
    SurveyedCable cable =
        s.has("survey")
            ? SurveyedCable.read(directory.resolve(s.text("survey")))
            : s.isSection("conductors")
                ? new MeasuredConductors(s).cable()
                : new SurveyedCable(described(s), Map.of(), Map.of(), Map.of(), false);
    s.done();
    return cable;
  }

  private static Cable described(Section s) throws FileException {
    double ohms =
        gauge(s).ohmsPerMetre(CELSIUS) * s.quantity("length", Dimension.LENGTH, 0.2, 1000);
    List<String> broken = s.texts("broken", MAX_CONDUCTORS);
    List<Cable.Conductor> conductors = new ArrayList<>();
    List<String> names = ControlReader.words(s, "conductors", MAX_CONDUCTORS);
    for (String name : names) {
      double its = broken.contains(name) ? Double.POSITIVE_INFINITY : ohms;
      conductors.add(new Cable.Conductor(name, name, name, its, 0));
    }
    for (String name : broken) {
      conductor(s, "broken", name, names);
    }
    return new Cable(s.text("name", ""), conductors, touching(s, names));
  }

  /** The key {@code touching}. */
  static List<Cable.Bridge> touching(Section s, List<String> names) throws FileException {
    List<Cable.Bridge> bridges = new ArrayList<>();
    for (Section b : s.sections("touching", MAX_TOUCHING)) {
      List<String> two = b.texts("between", 2);
      if (two.size() != 2 || two.get(0).equals(METAL)) {
        throw b.problemAt(
            "between", "not two conductors", "write it like '[red, blue]' or '[red, metal]'");
      }
      conductor(b, "between", two.get(0), names);
      @Nullable String other = two.get(1).equals(METAL) ? null : two.get(1);
      if (other != null) {
        conductor(b, "between", other, names);
      }
      bridges.add(
          new Cable.Bridge(
              two.get(0),
              other,
              b.quantity("ohm", Dimension.RESISTANCE, LEAST_TOUCH_OHMS, MOST_OHMS, 0.05),
              b.number("at", 0, 1, 0.5)));
      b.done();
    }
    return bridges;
  }

  static void conductor(Section s, String key, String name, List<String> names)
      throws FileException {
    if (!names.contains(name)) {
      throw s.problemAt(key, "no such conductor: " + name, Spelling.remedy(name, names));
    }
  }

  /** The key {@code gauge}; 18 AWG where it is not given. */
  static Gauge gauge(Section s) throws FileException {
    String text = s.text("gauge", "18 AWG");
    return Gauge.parse(text)
        .orElseThrow(
            () -> s.problemAt("gauge", "no gauge: " + text, "write '18 AWG' or '0.75 mm2'"));
  }
}
