package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * How sure it is that a conductor leads to its place at the far end.
 *
 * @param brokenAt fraction of the run where its path ends, NaN where it does not or nothing tells
 * @param far its far position as drawn: '4', '1 or 2', '?'
 */
record RoutePath(Certainty certainty, double brokenAt, String far) {
  /** As line style and as word. */
  enum Certainty {
    CERTAIN("certain"),
    LIKELY("likely", 12, 5),
    UNKNOWN("unknown", 2.5f, 5);

    private final String word;
    private final float[] dash;

    Certainty(String word, float... dash) {
      this.word = word;
      this.dash = dash;
    }

    String word() {
      return word;
    }

    float[] dash() {
      return dash.clone();
    }
  }

  /** 'certain', 'likely' or 'unknown'. */
  String word() {
    return certainty.word();
  }

  private static final Set<String> NOT_TOLD = Set.of("unidentified", "hidden", "ambiguous");
  private static final Set<String> BREAKS = Set.of("open", "untied", "broken-beside");

  static RoutePath of(SurveySheet sheet, Conductor c) {
    boolean broken = c.openAt() != null;
    boolean doubtful = c.standing() == Standing.UNDECIDED;
    for (Finding f : sheet.findings(c.port())) {
      broken |= BREAKS.contains(f.kind()) && c.ohms() == null;
      doubtful |= f.kind().equals("unproved");
      doubtful |= NOT_TOLD.contains(f.kind());
    }
    String far = far(c);
    if (broken) {
      boolean place = c.openAt() != null && c.openAt().decided();
      double at = place && c.openAt() != null ? c.openAt().fraction().value() : Double.NaN;
      return new RoutePath(Certainty.UNKNOWN, at, far);
    }
    if (c.position() != 0) {
      return new RoutePath(doubtful ? Certainty.LIKELY : Certainty.CERTAIN, Double.NaN, far);
    }
    return new RoutePath(
        c.farPossible().isEmpty() ? Certainty.UNKNOWN : Certainty.LIKELY, Double.NaN, far);
  }

  private static String far(Conductor c) {
    if (c.position() != 0) {
      return Integer.toString(c.position());
    }
    return c.farPossible().isEmpty() || c.farPossible().size() > 3
        ? "?"
        : c.farPossible().stream().map(String::valueOf).collect(Collectors.joining(" or "));
  }
}
