package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Place;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A survey's findings as what a route can show: at a place, or at none. */
final class RouteFaults {
  /** What is drawn of a fault. */
  enum Kind {
    BREAK("break", "break: no path"),
    JOINT("joint", "joint or contact"),
    TOUCH("touch", "touch: copper on copper"),
    LEAK("leak", "leak"),
    ATTACHED("attached", "something attached");

    private final String word;
    private final String legend;

    Kind(String word, String legend) {
      this.word = word;
      this.legend = legend;
    }

    String word() {
      return word;
    }

    String legend() {
      return legend;
    }
  }

  /**
   * A fault.
   *
   * @param key of its spot, {@code finding:2} for the third finding
   * @param at null where nothing tells
   * @param words title and words of its finding
   */
  record RouteFault(
      String key,
      Kind kind,
      List<String> ports,
      @Nullable Place at,
      Standing standing,
      String words) {}

  private static final Set<String> BREAKS = Set.of("open", "untied", "broken-beside");

  private final SurveySheet sheet;
  private final List<RouteFault> faults = new ArrayList<>();
  private final Set<String> broken = new HashSet<>();

  private RouteFaults(SurveySheet sheet) {
    this.sheet = sheet;
  }

  static List<RouteFault> of(SurveySheet sheet) {
    RouteFaults route = new RouteFaults(sheet);
    for (int i = 0; i < sheet.findings().size(); i++) {
      route.add("finding:" + i, sheet.findings().get(i));
    }
    for (Conductor c : sheet.conductors()) {
      if (c.openAt() != null && !route.broken.contains(c.port())) {
        route.breaks("break:" + c.port(), c, c.name() + " is broken. " + c.reason());
      }
    }
    return route.faults;
  }

  private void add(String key, Finding f) {
    String words = f.title() + ": " + f.words();
    Kind kind = kind(f.kind());
    if (kind == null || f.ports().isEmpty()) {
      return;
    }
    Conductor one = f.ports().size() == 1 ? sheet.conductor(f.ports().get(0)) : null;
    if (kind == Kind.BREAK && one != null) {
      breaks(key, one, words);
    } else {
      faults.add(new RouteFault(key, kind, f.ports(), f.at(), standing(f), words));
    }
  }

  private void breaks(String key, Conductor c, String words) {
    if (broken.add(c.port())) {
      faults.add(
          new RouteFault(key, Kind.BREAK, List.of(c.port()), c.openAt(), Standing.FAULTY, words));
    }
  }

  private static @Nullable Kind kind(String finding) {
    if (BREAKS.contains(finding)) {
      return Kind.BREAK;
    } else if (finding.startsWith("touching")) {
      return Kind.TOUCH;
    } else if (finding.startsWith("attached")) {
      return Kind.ATTACHED;
    }
    return switch (finding) {
      case "joint", "contact" -> Kind.JOINT;
      case "leakage", "damp" -> Kind.LEAK;
      default -> null;
    };
  }

  /** Faulty where a conductor or pair that it names is; otherwise undecided. */
  private Standing standing(Finding f) {
    for (String a : f.ports()) {
      Conductor c = sheet.conductor(a);
      if (f.ports().size() == 1 && c != null) {
        return c.standing() == Standing.FAULTY ? Standing.FAULTY : Standing.UNDECIDED;
      }
      for (String b : f.ports()) {
        SurveySheet.Pair pair = sheet.pair(a, b);
        if (pair != null && pair.standing() == Standing.FAULTY) {
          return Standing.FAULTY;
        }
      }
    }
    return Standing.UNDECIDED;
  }
}
