package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

class ChangePointTest {
  private static final int FIRST_YEAR = 1871;

  /** Cobb, Biometrika 65 (1978): the Nile's flow changed near 1898. */
  @Test
  void bothWaysFindTheNilesChange() {
    double[] flow = ReferenceTables.load("change-points/nile-data").only().numbers("flow");
    int year = ReferenceTables.load("change-points/nile-change").only().integer("year");
    Row said = ReferenceTables.load("change-points/nile-computed").only();
    ChangePoint squares = ChangePoint.leastSquares(flow);
    assertThat(FIRST_YEAR + squares.before() - 1).isEqualTo(year);
    assertThat(squares.meanBefore()).isCloseTo(said.number("meanBefore"), within(1e-9));
    assertThat(squares.meanAfter()).isCloseTo(said.number("meanAfter"), within(5.1e-5));
    double residual = said.number("splitSumOfSquares");
    double t = Math.sqrt((said.number("unsplitSumOfSquares") - residual) / (residual / 98));
    assertThat(squares.statistic()).isCloseTo(t, within(1e-7));
    assertThat(squares.chance()).isLessThan(1e-10);
    ChangePoint ranks = ChangePoint.pettitt(flow);
    assertThat(FIRST_YEAR + ranks.before() - 1).isEqualTo(year);
    assertThat(ranks.statistic()).isEqualTo(said.number("pettitt"));
    assertThat(ranks.chance()).isLessThan(1e-6);
  }

  @Test
  void ranksAsPettittPublished() {
    Row row = ReferenceTables.load("change-points/pettitt-1979").only();
    assertThat(row.status().decides()).isTrue();
    ChangePoint found = ChangePoint.pettitt(row.numbers("values"));
    assertThat(found.statistic()).isEqualTo(row.number("statistic"));
    assertThat(found.before()).isEqualTo(row.integer("before"));
    assertThat(found.chance()).isCloseTo(row.number("chance"), within(row.lastPlace("chance") / 2));
  }

  /** Of series without a change a share of at most so much is claimed, and not next to none. */
  @Test
  void theChanceIsWhatHappensWithoutAChange() {
    long seed = 4711;
    System.out.println("seed=" + seed);
    Random random = new Random(seed);
    int runs = 4000;
    int squares = 0;
    int ranks = 0;
    for (int i = 0; i < runs; i++) {
      double[] values = random.doubles(60).map(u -> random.nextGaussian()).toArray();
      squares += ChangePoint.leastSquares(values).chance() < 0.1 ? 1 : 0;
      ranks += ChangePoint.pettitt(values).chance() < 0.1 ? 1 : 0;
    }
    double most = 0.1 * runs + 4 * Math.sqrt(0.09 * runs);
    assertThat(squares).isBetween(runs / 100, (int) most);
    assertThat(ranks).isBetween(runs / 100, (int) most);
  }

  @Test
  void oneValueFarOutMovesTheMeansAndNotTheRanks() {
    double[] values = new double[40];
    Arrays.setAll(values, i -> (i < 25 ? 100 : 101) + (i * 7 % 5) * 0.1);
    assertThat(ChangePoint.leastSquares(values).before()).isEqualTo(25);
    values[3] = 500;
    assertThat(ChangePoint.leastSquares(values).before()).isNotEqualTo(25);
    assertThat(ChangePoint.pettitt(values).before()).isEqualTo(25);
  }

  @Test
  void aConstantSeriesShowsNothing() {
    double[] values = new double[10];
    Arrays.fill(values, 0.1);
    assertThat(ChangePoint.leastSquares(values).chance()).isEqualTo(1);
    assertThat(ChangePoint.pettitt(values).chance()).isEqualTo(1);
    assertThatThrownBy(() -> ChangePoint.pettitt(new double[3])).hasMessageContaining("values=3");
    values[4] = Double.NaN;
    assertThatThrownBy(() -> ChangePoint.leastSquares(values)).hasMessageContaining("mean=NaN");
  }
}
