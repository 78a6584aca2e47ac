package bellwire.analysis.landing;

import java.util.List;

/**
 * Something a technician can look at or measure next.
 *
 * @param words what to do, a whole sentence
 * @param answers what can come of it, in words, all of them
 * @param caution safety words for a live measurement; empty for a dead look
 * @param cost effort, a look under the cover of the control being 1 (CP)
 */
public record Measurement(String words, List<String> answers, String caution, double cost) {
  public Measurement {
    answers = List.copyOf(answers);
  }

  public boolean live() {
    return !caution.isEmpty();
  }
}
