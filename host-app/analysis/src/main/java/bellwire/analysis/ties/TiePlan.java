package bellwire.analysis.ties;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * What to join in each round.
 *
 * @param conductors how many there are; their far ends are numbered from 1
 * @param rounds ties of each round; within a round no far end is in two
 */
public record TiePlan(int conductors, List<List<Tie>> rounds) {

  /** More conductors than any cable this is for. */
  public static final int MOST_CONDUCTORS = 64;

  public TiePlan {
    if (conductors < 1 || conductors > MOST_CONDUCTORS) {
      throw new IllegalArgumentException("conductors=" + conductors);
    }
    rounds = rounds.stream().map(List::copyOf).toList();
    for (List<Tie> round : rounds) {
      Set<Integer> used = new HashSet<>();
      for (Tie tie : round) {
        if (tie.a() > conductors || tie.b() > conductors || !used.add(tie.a())) {
          throw new IllegalArgumentException("tie=" + tie);
        }
        if (!used.add(tie.b())) {
          throw new IllegalArgumentException("tie=" + tie);
        }
      }
    }
  }

  /**
   * Two rounds that make chains: 1-2-3-... joined in round 1, 2, 1, 2, ... and then the next chain.
   *
   * @param lengths conductors in each chain
   */
  public static TiePlan ofChains(List<Integer> lengths) {
    List<List<Tie>> rounds = List.of(new ArrayList<>(), new ArrayList<>());
    int first = 1;
    for (int length : lengths) {
      for (int k = 0; k + 1 < length; k++) {
        rounds.get(k % 2).add(new Tie(first + k, first + k + 1));
      }
      first += length;
    }
    return new TiePlan(first - 1, rounds);
  }

  /** Ties over all rounds. */
  public int ties() {
    return rounds.stream().mapToInt(List::size).sum();
  }

  /** Far numbers that no round joins to anything. */
  public List<Integer> untied() {
    return IntStream.rangeClosed(1, conductors).filter(f -> !tied(f)).boxed().toList();
  }

  private boolean tied(int far) {
    return rounds.stream().flatMap(List::stream).anyMatch(t -> t.a() == far || t.b() == far);
  }

  public boolean usesMetal() {
    return rounds.stream().flatMap(List::stream).anyMatch(t -> t.b() == Tie.METAL);
  }

  /** One of its rounds alone, or none. */
  public TiePlan only(int... rounds) {
    return new TiePlan(conductors, Arrays.stream(rounds).mapToObj(this.rounds::get).toList());
  }
}
