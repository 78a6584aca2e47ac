package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.vigil.TrendSeries;
import java.util.List;
import org.junit.jupiter.api.Test;

class CutRoundsTest {
  private static final double NONE = Double.NaN;

  @Test
  void aCutRoundIsLeftOutAndAnOpenOneKept() {
    long[] micros = {0, 100, 200, 300};
    double[] first = {1, 1, 1, 1};
    double[] second = {NONE, 2, NONE, 2};
    boolean[] cut = {true, false, false, true};
    List<TrendSeries> all =
        CutRounds.without(
            List.of(
                new TrendSeries(0, micros, first, 0.1), new TrendSeries(1, micros, second, 0.1)),
            cut);
    assertThat(all.get(0).micros()).containsExactly(100, 200);
    assertThat(all.get(1).ohms()).containsExactly(2, NONE);
    assertThat(all.get(1).port()).isEqualTo(1);
  }
}
