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
 */
public record Seen(
    List<Integer> ports, int metal, List<List<Integer>> shorted, List<List<List<Integer>>> rounds) {
  public static final int NO_METAL = -1;
}
