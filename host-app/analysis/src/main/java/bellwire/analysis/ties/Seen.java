package bellwire.analysis.ties;

import java.util.List;

/**
 * What the near end saw.
 *
 * @param ports of the conductors; fewer than the plan has where some have no copper at the near end
 * @param metal port of the clip for bare metal, −1 where it is not clipped
 * @param shorted groups of two and more ports that are joined with nothing on the far end
 * @param rounds groups of two and more ports that are joined in each round; what is shorted is
 *     joined in every round whether it is named there or not
 * @param broken ports known to be a broken conductor, and no others are; empty where it is not
 *     known
 */
public record Seen(
    List<Integer> ports,
    int metal,
    List<List<Integer>> shorted,
    List<List<List<Integer>>> rounds,
    List<Integer> broken) {
  public static final int NO_METAL = -1;

  /** Where it is not known which conductors are broken. */
  public Seen(
      List<Integer> ports,
      int metal,
      List<List<Integer>> shorted,
      List<List<List<Integer>>> rounds) {
    this(ports, metal, shorted, rounds, List.of());
  }

  public Seen withBroken(List<Integer> known) {
    return new Seen(ports, metal, shorted, rounds, known);
  }
}
