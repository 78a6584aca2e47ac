package bellwire.soak;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Some seeds of the whole system; more of them with {@code bellwire-soak}. */
class SoakTest {
  private static final int SEEDS = Integer.getInteger("bellwire.seeds", 4);
  private static final long FIRST = Long.getLong("bellwire.seed", 1);
  private static final long MICROS = 180_000_000;

  @TempDir private Path scratch;

  @Test
  void noInvariantBreaks() {
    Tally all = new Tally();
    List<String> broken = new ArrayList<>();
    for (long seed = FIRST; seed < FIRST + SEEDS; seed++) {
      Simulation.Outcome outcome = Simulation.run(seed, MICROS, scratch, words -> {});
      all.add(outcome.tally());
      if (!outcome.broken().isEmpty()) {
        broken.add("seed " + seed + " " + outcome.broken());
      }
    }
    System.out.println("seeds " + FIRST + ".." + (FIRST + SEEDS - 1) + " " + all);
    assertThat(broken).isEmpty();
  }

  /** What is told of a seed can be seen again. */
  @Test
  void aSeedRepeats() {
    Simulation.Outcome once = Simulation.run(FIRST, MICROS, scratch, words -> {});
    Simulation.Outcome again = Simulation.run(FIRST, MICROS, scratch, words -> {});
    assertThat(again.fingerprint()).isEqualTo(once.fingerprint()).isNotEqualTo(0);
  }
}
