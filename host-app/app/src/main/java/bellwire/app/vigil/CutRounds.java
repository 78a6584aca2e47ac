package bellwire.app.vigil;

import bellwire.analysis.vigil.TrendSeries;
import java.util.Arrays;
import java.util.List;

/**
 * Leaves out rounds of a trend that were cut: by the vigil's start or end, by a gap, by an agent
 * that was held up, by what was asked to be shown. What such a round lacks was not read, and
 * nothing was open.
 */
final class CutRounds {
  private CutRounds() {}

  /**
   * @param all with the same times each
   * @param cut by round
   */
  static List<TrendSeries> without(List<TrendSeries> all, boolean[] cut) {
    int[] kept = new int[cut.length];
    int count = 0;
    for (int r = 0; r < cut.length; r++) {
      if (!cut[r]) {
        kept[count++] = r;
      }
    }
    int[] rounds = Arrays.copyOf(kept, count);
    return all.stream().map(each -> only(each, rounds)).toList();
  }

  private static TrendSeries only(TrendSeries of, int[] rounds) {
    return new TrendSeries(
        of.port(),
        Arrays.stream(rounds).mapToLong(r -> of.micros()[r]).toArray(),
        Arrays.stream(rounds).mapToDouble(r -> of.ohms()[r]).toArray(),
        of.readingOhms());
  }
}
