package bellwire.simbench.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import bellwire.yaml.FileException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class IntermittentReaderTest {
  private static final long SECOND = 1_000_000_000L;
  private static final String FULL =
      """
      bellwire-bench: 1
      seed: 7
      cable:
        gauge: 18 AWG
        length: 20 m
        conductors: [{port: P1, colour: red, far: 1}, {port: P3, colour: white, far: 2}]
      intermittent:
        - {opening: P3, at: 0, poisson: {per-hour: 6}, lasting: 5 us..2 s}
        - {touch: [M, P1], at: 98 %, bursts: {per-hour: 2, events: 8, gap: 40 ms}, lasting: 3 us}
        - {opening: P1, at: 0.5, cycle: {period: 12 min, phase: 3 min, jitter: 5 s}, lasting: 2 ms}
        - {opening: P1, at: 0.5, temperature: {per-hour: 5, per-kelvin: -0.2, swing: 6 K}, lasting: 1 s}
        - {touch: [P1, P3], at: 1, vibration: {period: 10 min, running: 3 min, hz: 25, chance: 0.001}, lasting: 9 us, from: 1 min, until: 20 h}
        - {wander: P3, at: 0.98, ohm: 20 mohm, walk: 2 mohm, ramp: 50 mohm, every: 30 s, from: 1 h}
      """;

  @Test
  void everyKeyIsRead() throws FileException {
    Bench bench = BenchFile.parse("x.yaml", FULL);
    Intermittent.Kind opening = Intermittent.Kind.OPENING;
    Intermittent.Kind touch = Intermittent.Kind.TOUCH;
    long never = Long.MAX_VALUE;
    long day = 86_400 * SECOND;
    assertThat(bench.intermittents())
        .containsExactly(
            new Intermittent(
                opening, 2, -1, 0, new Intermittent.Poisson(6), 5000, 2 * SECOND, 0, never),
            new Intermittent(
                touch,
                0,
                16,
                0.98,
                new Intermittent.Bursts(2, 8, 40_000_000),
                3000,
                3000,
                0,
                never),
            new Intermittent(
                opening,
                0,
                -1,
                0.5,
                new Intermittent.Cycle(720 * SECOND, 180 * SECOND, 5 * SECOND, 1),
                2_000_000,
                2_000_000,
                0,
                never),
            new Intermittent(
                opening,
                0,
                -1,
                0.5,
                new Intermittent.Temperature(5, -0.2, 6, day, 0),
                SECOND,
                SECOND,
                0,
                never),
            new Intermittent(
                touch,
                0,
                2,
                1,
                new Intermittent.Vibration(600 * SECOND, 0, 180 * SECOND, 25, 0.001),
                9000,
                9000,
                60 * SECOND,
                72_000 * SECOND));
    assertThat(bench.wanders())
        .containsExactly(new Wander(2, 0.98, 0.02, 0.002, 0.05, 30 * SECOND, 3600 * SECOND, never));
  }

  /** What a slip of the pen turns the file into, the line to blame, and words that must be said. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "opening: P3 | opened: P3 | 8 | without any of opening, touch, wander | begin it with one",
        "opening: P3 | opening: P2 | 8 | no conductor on that port | cable's conductors",
        "opening: P3 | opening: M | 8 | M is no conductor | P1 to P16",
        "opening: P3 | opening: P3, wander: P1 | 8 | two of one sort | own entry",
        "poisson: {per-hour: 6} | often: yes | 8 | without any of poisson | say when it happens",
        "poisson: {per-hour: 6} | poisson: {per-hour: 0} | 8 | out of bounds in poisson | 0.0001 to 1.00000e+06",
        "poisson: {per-hour: 6} | poisson: {per-our: 6} | 8 | unknown key in poisson | per-hour",
        "5 us..2 s | 2 s..5 us | 8 | out of bounds in intermittent: lasting=5 us | use",
        "5 us..2 s | 5 us.. | 8 | unit not known here | us",
        "5 us..2 s | 5..2 s | 8 | unit missing | us",
        "5 us..2 s | 5 us..2 min | 8 | out of bounds | 1 min",
        "touch: [M, P1] | touch: [P1] | 9 | not two ports | P4",
        "touch: [M, P1] | touch: [M, P2] | 9 | no conductor on that port | cable's conductors",
        "at: 98 % | at: 198 % | 9 | out of bounds | 100",
        "events: 8 | events: 0.5 | 9 | out of bounds | 1 to",
        "jitter: 5 s | jitter: 7 min | 10 | more than half a period | below",
        "period: 12 min | period: 12 | 10 | unit missing | min",
        "per-kelvin: -0.2 | per-kelvin: -20 | 11 | out of bounds | -2 to 2",
        "running: 3 min | running: 13 min | 12 | longer than its period | within",
        "until: 20 h | until: 1 s | 12 | times out of order | after",
        "walk: 2 mohm, ramp: 50 mohm | walk: 0 mohm | 13 | stays where it is | walk: 2 mohm",
        "every: 30 s | every: 30 ms | 13 | out of bounds | 1",
        "wander: P3, at: 0.98 | wander: P3 | 13 | key missing | at",
      })
  void slipsAreNamedWithFileLineAndRemedy(
      String right, String wrong, int line, String problem, String remedy) {
    assertThat(FULL).contains(right);
    FileException error =
        catchThrowableOfType(
            FileException.class, () -> BenchFile.parse("slip.yaml", FULL.replace(right, wrong)));
    assertThat(error)
        .hasMessageStartingWith("slip.yaml:" + line + ": ")
        .hasMessageContaining(problem)
        .hasMessageContaining(remedy);
    assertThat(error.getMessage()).doesNotContain("\n");
  }

  @ParameterizedTest
  @CsvSource({"vigil-loose-clamp, 2, 1", "vigil-door, 2, 0", "demo-vigil, 2, 1"})
  void theVigilBenchesThatComeAlongAreGood(String name, int faults, int wanders) throws Exception {
    try (InputStream in = BenchFile.class.getResourceAsStream("/benches/" + name + ".yaml")) {
      Bench bench = BenchFile.parse(name, new String(in.readAllBytes(), StandardCharsets.UTF_8));
      assertThat(bench.intermittents()).hasSize(faults);
      assertThat(bench.wanders()).hasSize(wanders);
    }
  }
}
