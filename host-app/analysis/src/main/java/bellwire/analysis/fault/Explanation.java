package bellwire.analysis.fault;

import java.util.List;

/**
 * A set of faults that would explain what was measured.
 *
 * @param faults empty for a healthy cable
 * @param probability posterior, among all explanations tried
 * @param explained false where a part of the readings fits none of them; the faults are then those
 *     that are seen without any fit
 */
public record Explanation(List<Fault> faults, double probability, boolean explained) {

  public Explanation {
    faults = List.copyOf(faults);
  }

  /** Whether both blame the same faults, wherever they are and however large. */
  public boolean sameFaults(List<Fault> others) {
    return faults.size() == others.size()
        && faults.stream().allMatch(f -> others.stream().anyMatch(f::sameAs));
  }
}
