package bellwire.app.report;

import bellwire.analysis.landing.Proposal;
import bellwire.analysis.landing.Replacement;
import java.io.IOException;

/** A proposed landing as JSON, version 1. */
public final class PlanJson {
  private PlanJson() {}

  /** The document as text, ending in a newline. */
  public static String text(Replacement replacement, Proposal proposal) throws IOException {
    throw new IOException("control=" + replacement.control().title());
  }
}
