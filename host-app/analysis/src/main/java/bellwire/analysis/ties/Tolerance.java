package bellwire.analysis.ties;

import java.util.ArrayList;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.stream.IntStream;

/**
 * What a plan leaves undecided when one thing is wrong: over all single opens, and over all single
 * shorts between two conductors, how many conductors have more than one possible far number.
 *
 * @param openMean mean over the opens
 * @param openWorst most of any open
 * @param shortMean mean over the shorts; the two that touch are always among them
 * @param shortWorst most of any short
 */
public record Tolerance(double openMean, int openWorst, double shortMean, int shortWorst) {

  public static Tolerance of(TiePlan plan) {
    List<Integer> all = IntStream.rangeClosed(1, plan.conductors()).boxed().toList();
    IntSummaryStatistics opens =
        all.stream()
            .mapToInt(open -> undecided(plan, List.of(open), List.of()))
            .summaryStatistics();
    IntSummaryStatistics shorts =
        all.stream()
            .flatMap(a -> all.stream().filter(b -> b > a).map(b -> List.of(a, b)))
            .mapToInt(pair -> undecided(plan, List.of(), List.of(pair)))
            .summaryStatistics();
    return new Tolerance(
        opens.getAverage(), opens.getMax(), shorts.getAverage(), Math.max(0, shorts.getMax()));
  }

  /** By this plans are compared: the fewer the better. Opens and shorts weigh the same. */
  public double undecidedOnAverage() {
    return openMean + shortMean;
  }

  private static int undecided(TiePlan plan, List<Integer> opens, List<List<Integer>> shorts) {
    TieDecoder decoder = new TieDecoder(plan);
    TieReading reading = decoder.decode(seen(decoder, plan, opens, shorts));
    return (int) reading.possible().values().stream().filter(n -> n.size() != 1).count();
  }

  /** The near end's view where every conductor's port is its far number. */
  static Seen seen(
      TieDecoder decoder, TiePlan plan, List<Integer> opens, List<List<Integer>> shorts) {
    Joined joined = decoder.wouldSee(opens, shorts, plan.usesMetal());
    List<List<List<Integer>>> rounds = new ArrayList<>();
    for (int layer = 1; layer < joined.layers(); layer++) {
      rounds.add(
          joined.groups(layer).stream()
              .filter(g -> g.size() > 1)
              .map(g -> g.stream().map(v -> v + 1).toList())
              .toList());
    }
    List<Integer> ports = IntStream.rangeClosed(1, plan.conductors()).boxed().toList();
    int metal = plan.usesMetal() ? plan.conductors() + 1 : Seen.NO_METAL;
    return new Seen(ports, metal, shorts, rounds);
  }
}
