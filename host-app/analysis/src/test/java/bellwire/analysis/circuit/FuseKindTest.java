package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import bellwire.reference.Table;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Opening times against the published limits; the tables name their sources. */
class FuseKindTest {

  /** At a published multiple exactly what is published, between two the bounds of both. */
  @ParameterizedTest
  @CsvSource({
    "FAST, ul-248-14-fast, 3",
    "FAST, ul-248-14-fast, 5",
    "TIME_LAG, ul-248-14-time-lag, 3",
    "TIME_LAG, ul-248-14-time-lag, 5",
    "QUICK_ACTING, iec-60127-2-quick-acting, 0.125",
    "QUICK_ACTING, iec-60127-2-quick-acting, 3",
    "QUICK_ACTING, iec-60127-2-quick-acting, 10",
    "QUICK_ACTING, iec-60127-2-quick-acting-small, 0.032",
    "QUICK_ACTING, iec-60127-2-quick-acting-small, 0.1"
  })
  void publishedLimits(FuseKind kind, String name, double ratedAmps) {
    Table table = ReferenceTables.load("fuses/" + name);
    assertThat(table.status().decides()).isTrue();
    assertThat(kind.published()).isTrue();
    limits(kind, table, ratedAmps);
  }

  /** These only say what the defaults are; no standard decides here. */
  @ParameterizedTest
  @CsvSource({"BLADE, iso-8820-3-blade", "BREAKER, thermal-breaker"})
  void defaults(FuseKind kind, String name) {
    Table table = ReferenceTables.load("fuses/" + name);
    assertThat(table.status().decides()).isFalse();
    assertThat(kind.published()).isFalse();
    limits(kind, table, 3);
  }

  private static void limits(FuseKind kind, Table table, double ratedAmps) {
    List<Row> rows =
        table.rows().stream()
            .filter(r -> !r.has("mostAmps") || ratedAmps <= r.number("mostAmps"))
            .filter(r -> !r.has("aboveAmps") || ratedAmps > r.number("aboveAmps"))
            .toList();
    assertThat(rows).isNotEmpty();
    for (int i = 0; i < rows.size(); i++) {
      Row row = rows.get(i);
      double amps = ratedAmps * row.number("percent") / 100;
      OpeningTime at = kind.opening(ratedAmps, amps * (1 - 1e-12));
      if (row.has("earliestSeconds")) {
        assertThat(at.earliestSeconds()).isEqualTo(row.number("earliestSeconds"));
      }
      OpeningTime above = kind.opening(ratedAmps, amps * 1.001);
      if (row.has("latestSeconds")) {
        assertThat(above.latestSeconds()).isEqualTo(row.number("latestSeconds"));
      }
      Row next = i + 1 < rows.size() ? rows.get(i + 1) : null;
      if (next != null && next.has("earliestSeconds")) {
        assertThat(above.earliestSeconds()).isEqualTo(next.number("earliestSeconds"));
      }
      if (next == null) {
        assertThat(above.earliestSeconds()).isZero();
      }
    }
  }

  @Test
  void theSoonerTheMoreItCarries() {
    for (FuseKind kind : FuseKind.values()) {
      for (double rated : new double[] {0.05, 0.11, 3, 3.1, 5, 20}) {
        OpeningTime before = OpeningTime.NEVER;
        for (double multiple = 0; multiple < 12; multiple += 0.01) {
          OpeningTime now = kind.opening(rated, multiple * rated);
          assertThat(now.earliestSeconds()).isLessThanOrEqualTo(before.earliestSeconds());
          assertThat(now.latestSeconds())
              .isLessThanOrEqualTo(before.latestSeconds())
              .isGreaterThanOrEqualTo(now.earliestSeconds());
          before = now;
        }
      }
    }
  }

  @Test
  void itsRatingIsCarriedForGoodAndALittleMoreIsUncertain() {
    for (FuseKind kind : FuseKind.values()) {
      assertThat(kind.opening(5, 0)).isEqualTo(OpeningTime.NEVER);
      assertThat(kind.opening(5, 5)).isEqualTo(OpeningTime.NEVER);
      OpeningTime more = kind.opening(5, 6);
      assertThat(more.possible()).isTrue();
      assertThat(more.certain()).isFalse();
    }
  }

  /** Nothing is published for it: it may open at once or never. */
  @Test
  void aRatingThatNothingIsPublishedFor() {
    assertThat(FuseKind.QUICK_ACTING.opening(20, 100))
        .isEqualTo(new OpeningTime(0, Double.POSITIVE_INFINITY));
    assertThat(FuseKind.QUICK_ACTING.opening(0.11, 1.1))
        .isEqualTo(new OpeningTime(0, Double.POSITIVE_INFINITY));
  }

  /** Of 3.1 A nothing is said: the shorter time. */
  @Test
  void timeLagBetweenTheTwoRatings() {
    assertThat(FuseKind.TIME_LAG.opening(3.1, 6.2)).isEqualTo(new OpeningTime(5, 120));
    assertThat(FuseKind.TIME_LAG.opening(3.15, 6.3)).isEqualTo(new OpeningTime(5, 120));
    assertThat(FuseKind.TIME_LAG.opening(3.2, 6.4)).isEqualTo(new OpeningTime(12, 120));
  }

  @Test
  void timesThatWereReadNameTheirStandardAndOthersSayWhatTheyAre() {
    for (FuseKind kind : FuseKind.values()) {
      assertThat(kind.source())
          .as(kind.name())
          .containsPattern(kind.published() ? "^(UL|IEC) [0-9-]+$" : "from memory$|no source$");
    }
  }

  @Test
  void mistakesOfTheCaller() {
    assertThatThrownBy(() -> FuseKind.FAST.opening(0, 1)).hasMessageContaining("ratedAmps=0.0");
    assertThatThrownBy(() -> FuseKind.FAST.opening(3, Double.NaN)).hasMessageContaining("amps=NaN");
  }
}
