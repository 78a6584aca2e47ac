package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * All that a survey read, in the terms of the inference.
 *
 * @param setting what is known beforehand
 * @param stages states of the far end, by the index that {@link Ratio#stage} gives
 * @param ratios four-terminal readings of all stages
 * @param background conductances between terminals as seen from the near end, siemens, those inside
 *     a group among them
 * @param groups what hangs together by less than some kilohms
 * @param leaks larger ones, and those of groups too large to be explained as one
 * @param resistances of the conductors that nothing hides, without their contacts
 * @param standingOut excess of those that stand out from their fellows
 * @param broken conductors that did not hang on any plug
 * @param breaks place of a conductor's break, should it be broken, where capacitance tells it
 * @param poor conductors that hang on the plug by a joint of so many ohms
 * @param positions on the coded plug that are known, from 0
 * @param doubtful conductors that hang on the plug with an arm that no free position explains
 */
public record Evidence(
    Setting setting,
    List<Stage> stages,
    List<Ratio> ratios,
    double[][] background,
    List<Group> groups,
    List<Leakage> leaks,
    Map<Integer, Quantity> resistances,
    Map<Integer, Quantity> standingOut,
    List<Integer> broken,
    Map<Integer, Quantity> breaks,
    Map<Integer, Quantity> poor,
    Map<Integer, Integer> positions,
    Set<Integer> doubtful) {

  /**
   * Ports with paths between them.
   *
   * @param clusters those that touch; a port that only leaks is one of its own
   * @param leaks that join the clusters
   */
  public record Group(List<List<Integer>> clusters, List<Leakage> leaks) {
    List<Integer> ports() {
      return clusters.stream().flatMap(List::stream).toList();
    }
  }

  /**
   * A leakage that was detected.
   *
   * @param ports that touch one another, one of which leaks
   * @param others to one of these
   */
  public record Leakage(List<Integer> ports, List<Integer> others, Quantity ohms) {}
}
