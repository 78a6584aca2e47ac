package bellwire.analysis.ties;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Plans of two rounds of pairs that identify every conductor: chains of odd, different lengths, as
 * docs/ties.md proves, and no others.
 */
public final class TiePlans {
  private TiePlans() {}

  /**
   * The plan with the fewest ties; of several the one whose chains are most alike in length, which
   * one open or one short leaves the fewest conductors undecided.
   *
   * @param conductors 1, 3 and more; for two there is none
   * @throws IllegalArgumentException for two, or for more than {@link TiePlan#MOST_CONDUCTORS}
   */
  public static TiePlan fewest(int conductors) {
    return TiePlan.ofChains(mostAlike(conductors, mostChains(conductors), 1));
  }

  /**
   * A plan in which every conductor is in a tie, so that each is seen to reach the far end; empty
   * where there is none (4 and 6, for which one conductor is always left over).
   */
  public static Optional<TiePlan> everyTied(int conductors) {
    for (int chains = mostChains(conductors); chains > 0; chains -= 2) {
      // Without a chain of one the least lengths are 3, 5, 7, ...
      if (chains * (chains + 2) <= conductors) {
        return Optional.of(TiePlan.ofChains(mostAlike(conductors, chains, 3)));
      }
    }
    return Optional.empty();
  }

  /** Each of two conductors in turn joined to bare metal, which the near end knows as M. */
  public static TiePlan twoByMetal() {
    return new TiePlan(2, List.of(List.of(new Tie(1, Tie.METAL)), List.of(new Tie(2, Tie.METAL))));
  }

  /** m different odd numbers have a sum of at least m², and one as odd or even as m. */
  private static int mostChains(int conductors) {
    if (conductors < 1 || conductors == 2 || conductors > TiePlan.MOST_CONDUCTORS) {
      throw new IllegalArgumentException("conductors=" + conductors);
    }
    int chains = (int) Math.sqrt(conductors);
    return chains % 2 == conductors % 2 ? chains : chains - 1;
  }

  /** The least lengths, and what is left spread over them in twos, the longest first. */
  private static List<Integer> mostAlike(int conductors, int chains, int least) {
    int spare = (conductors - chains * (chains - 1 + least)) / 2;
    List<Integer> lengths = new ArrayList<>();
    for (int k = chains - 1; k >= 0; k--) {
      int share = spare / chains + (chains - 1 - k < spare % chains ? 1 : 0);
      lengths.add(least + 2 * k + 2 * share);
    }
    return lengths;
  }
}
