package bellwire.app.vigil;

import bellwire.analysis.vigil.TrendSeries;
import java.util.Arrays;
import java.util.List;

/**
 * Leaves out rounds of a trend that were cut: by the vigil's start or end, by a gap, by what was
 * asked to be shown. What such a round lacks was not read, and nothing was open.
 */
final class CutRounds {
  private CutRounds() {}

  /**
   * @param all with the same times each
   * @param periodMicros of a round
   */
  static List<TrendSeries> without(List<TrendSeries> all, long periodMicros) {
    long[] micros = all.get(0).micros();
    int[] kept = new int[micros.length];
    int count = 0;
    for (int r = 0; r < micros.length; r++) {
      int round = r;
      boolean whole = all.stream().noneMatch(each -> Double.isNaN(each.ohms()[round]));
      if (whole || !atEdge(micros, r, periodMicros)) {
        kept[count++] = r;
      }
    }
    int[] rounds = Arrays.copyOf(kept, count);
    return all.stream().map(each -> only(each, rounds)).toList();
  }

  private static boolean atEdge(long[] micros, int r, long periodMicros) {
    long most = periodMicros + periodMicros / 2;
    return r == 0
        || r == micros.length - 1
        || micros[r] - micros[r - 1] > most
        || micros[r + 1] - micros[r] > most;
  }

  private static TrendSeries only(TrendSeries of, int[] rounds) {
    return new TrendSeries(
        of.port(),
        Arrays.stream(rounds).mapToLong(r -> of.micros()[r]).toArray(),
        Arrays.stream(rounds).mapToDouble(r -> of.ohms()[r]).toArray(),
        of.readingOhms());
  }
}
