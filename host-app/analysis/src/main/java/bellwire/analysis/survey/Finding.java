package bellwire.analysis.survey;

import bellwire.analysis.findings.CableFinding;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Something the survey found.
 *
 * @param kind what it is
 * @param ports where
 * @param words what was seen, with its figures
 * @param at where along the run, null where that is not known
 */
public record Finding(CableFinding kind, List<Integer> ports, String words, @Nullable AlongRun at) {

  public Finding(CableFinding kind, List<Integer> ports, String words) {
    this(kind, ports, words, null);
  }
}
