package bellwire.app.report;

import bellwire.analysis.landing.Proposal;
import bellwire.analysis.landing.Replacement;
import java.util.ArrayList;
import java.util.List;

/** A proposed landing, for a terminal. */
public final class PlanText {
  private PlanText() {}

  public static List<String> lines(Replacement replacement, Proposal proposal) {
    return new ArrayList<>();
  }
}
