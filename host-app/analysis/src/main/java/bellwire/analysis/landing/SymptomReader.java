package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Installation;
import java.util.Set;

/** What a person without tools would notice about an installation. */
public final class SymptomReader {
  private SymptomReader() {}

  /** Symptoms that this control and equipment can show at all, whatever is wrong. */
  public static Set<Symptom> possible(Installation intended) {
    throw new UnsupportedOperationException("states=" + intended.control().states().size());
  }

  /** Symptoms of the installation as it is; empty where all is well. */
  public static Set<Symptom> read(Installation installation) {
    throw new UnsupportedOperationException("states=" + installation.control().states().size());
  }
}
