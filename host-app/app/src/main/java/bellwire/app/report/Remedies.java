package bellwire.app.report;

import bellwire.analysis.findings.FindingKind;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** What to do about findings, each kind once. */
public final class Remedies {
  private Remedies() {}

  /** Lines under their heading; none where there is nothing to do. */
  public static List<String> lines(Stream<? extends FindingKind> kinds) {
    List<String> out = new ArrayList<>();
    kinds
        .distinct()
        .forEach(
            kind -> out.addAll(Paragraph.hanging("  - ", kind.title() + ": " + kind.remedy())));
    if (!out.isEmpty()) {
      out.add(0, "WHAT TO DO");
    }
    return out;
  }
}
