package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class PreferredNumbersRecomputedTest {

  @Test
  void e96IsTheRoundedGeometricSeriesWithoutException() {
    int[] series =
        IntStream.range(0, 96).map(i -> (int) Math.round(100 * Math.pow(10, i / 96.0))).toArray();
    assertThat(ReferenceTables.load("preferred-numbers/e96").only().integers("digits"))
        .containsExactly(series);
  }

  @Test
  void e24DiffersFromTheRoundedSeriesExactlyWhereItIsSaidTo() {
    int[] standard = ReferenceTables.load("preferred-numbers/e24").only().integers("digits");
    List<Integer> rounded = new ArrayList<>();
    List<Integer> kept = new ArrayList<>();
    for (int i = 0; i < 24; i++) {
      int plain = (int) Math.round(10 * Math.pow(10, i / 24.0));
      if (plain != standard[i]) {
        rounded.add(plain);
        kept.add(standard[i]);
      }
    }
    Row said = ReferenceTables.load("preferred-numbers/e24-rounding").only();
    assertThat(said.integers("rounded"))
        .containsExactly(rounded.stream().mapToInt(i -> i).toArray());
    assertThat(said.integers("standard")).containsExactly(kept.stream().mapToInt(i -> i).toArray());
  }

  @Test
  void e192HasOneExceptionThatRoundingGives() {
    Row row = ReferenceTables.load("preferred-numbers/e192-exception").only();
    assertThat(Math.round(100 * Math.pow(10, 185 / 192.0))).isEqualTo(row.integer("rounded"));
  }
}
