package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Installation;
import java.util.Set;

/** Explains symptoms by mistakes. Simulated results are kept: use one for one installation. */
public final class Explainer {
  private final Installation intended;

  /** Told how far a long search is. */
  @FunctionalInterface
  public interface Progress {
    /**
     * @return false to cancel
     */
    boolean goOn(int done, int of);
  }

  /**
   * @param intended as it should be: the landing plan and the settings as planned
   */
  public Explainer(Installation intended) {
    this.intended = intended;
  }

  /** Symptoms that this installation can show at all. */
  public Set<Symptom> possible() {
    return new SymptomReader(intended).possible();
  }

  /**
   * Weighs every single mistake, and with {@code pairs} every two together.
   *
   * @param seen told of
   * @param notSeen looked for, and not there
   * @throws java.util.concurrent.CancellationException where progress says so
   */
  public Dialogue explain(
      Set<Symptom> seen, Set<Symptom> notSeen, boolean pairs, Progress progress) {
    throw new UnsupportedOperationException("seen=" + seen + ", notSeen=" + notSeen + pairs);
  }
}
