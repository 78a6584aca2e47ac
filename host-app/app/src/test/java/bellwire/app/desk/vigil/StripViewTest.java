package bellwire.app.desk.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class StripViewTest {
  private static final long HOUR = 3_600_000_000L;

  @Test
  void zoomingKeepsTheTimeUnderThePointer() {
    StripView view = new StripView(StripView.Kind.PART, HOUR, 3 * HOUR);
    StripView closer = view.zoomed(0.5, HOUR + HOUR / 2);
    assertThat(closer.lengthMicros()).isEqualTo(HOUR);
    assertThat((HOUR + HOUR / 2 - closer.fromMicros()) / (double) closer.lengthMicros())
        .isEqualTo(0.25);
    assertThat(closer.zoomed(2, HOUR + HOUR / 2)).isEqualTo(view);
  }

  @Test
  void zoomingEndsAtTheLeastAndTheMost() {
    StripView view = new StripView(StripView.Kind.PART, 0, HOUR);
    for (int i = 0; i < 100; i++) {
      view = view.zoomed(0.5, 0);
    }
    assertThat(view.lengthMicros()).isEqualTo(StripView.LEAST_MICROS);
    for (int i = 0; i < 100; i++) {
      view = view.zoomed(2, 0);
    }
    assertThat(view.lengthMicros()).isEqualTo(StripView.MOST_MICROS);
  }

  @Test
  void allAndTheLatestFollowWhatIsWatched() {
    assertThat(StripView.ALL.over(10, HOUR).toMicros()).isEqualTo(HOUR);
    StripView latest = StripView.latest(HOUR).over(0, 5 * HOUR);
    assertThat(latest.fromMicros()).isEqualTo(4 * HOUR);
    assertThat(latest.over(0, 6 * HOUR).toMicros()).isEqualTo(6 * HOUR);
  }

  @Test
  void aPartCannotBeMovedAwayFromTheVigil() {
    StripView far = new StripView(StripView.Kind.PART, 0, HOUR).moved(100).within(0, 2 * HOUR);
    assertThat(far.fromMicros()).isLessThan(2 * HOUR);
    assertThat(far.lengthMicros()).isEqualTo(HOUR);
  }
}
