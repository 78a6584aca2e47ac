package bellwire.fuzz;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Each target on its seeds and on the inputs that were kept of its runs, each within its bounds.
 */
class KeptInputsTest {
  private static final Duration PATIENCE = Duration.ofMinutes(1);

  @ParameterizedTest
  @EnumSource
  void everyKeptInputIsTakenWithinItsBounds(Entry entry) throws Exception {
    List<byte[]> inputs = new ArrayList<>(entry.seeds());
    List<byte[]> kept = Kept.inputs(entry);
    assertThat(inputs).as("seeds").isNotEmpty();
    assertThat(kept).as("kept").isNotEmpty();
    inputs.addAll(kept);
    Watched watched = new Watched(entry);
    for (byte[] input : inputs) {
      assertTimeoutPreemptively(PATIENCE, () -> watched.take(input));
    }
  }
}
