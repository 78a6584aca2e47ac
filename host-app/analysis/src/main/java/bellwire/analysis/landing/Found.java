package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import java.util.List;

/**
 * A finding of the landing check.
 *
 * @param states names of the control's states it shows in, in its order; empty where it shows in
 *     every one
 * @param words one sentence with the figures, without the kind's title and remedy
 * @param path of the current, names in order from a transformer's hot end to its common; may be
 *     empty
 * @param where conductors, terminals and elements it is about
 * @param notice worth knowing, and no fault
 */
public record Found(
    LoopFinding kind,
    List<String> states,
    String words,
    List<String> path,
    List<String> where,
    boolean notice) {
  public Found {
    states = List.copyOf(states);
    path = List.copyOf(path);
    where = List.copyOf(where);
  }
}
