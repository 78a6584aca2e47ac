package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.Stream.Kind;
import org.junit.jupiter.api.Test;

/** Payloads whose checksums are right, and whose times no clock would tell. */
class SpanOrderTest {
  private static final Stream WORDS = Stream.of(Kind.WORDS, "ports", 1000, 1);
  private static final Stream CODES = Stream.of(Kind.CODES, "P1", 20_000, 1);

  private static void assertDamaged(Stream stream, ByteSink sink, String words) {
    byte[] bytes = sink.taken();
    assertThatThrownBy(() -> Span.decoded(stream, bytes))
        .isInstanceOf(Damage.class)
        .hasMessageContaining(words);
  }

  private static ByteSink runs(long... startAndTicks) {
    ByteSink sink = new ByteSink();
    sink.number(startAndTicks.length / 2);
    for (int i = 0; i < startAndTicks.length; i += 2) {
      sink.signed(startAndTicks[i]);
      sink.number(startAndTicks[i + 1]);
      sink.number(0);
      sink.number(0);
    }
    return sink;
  }

  @Test
  void aRunBeforeTheOneBeforeIsDamage() {
    assertDamaged(WORDS, runs(5_000_000, 10, -9_000_000, 1), "times out of order");
  }

  @Test
  void aRunWithoutASampleIsDamage() {
    assertDamaged(WORDS, runs(5_000_000, 0), "a run without a sample");
  }

  @Test
  void aTimeNearTheEndOfNumbersIsDamage() {
    assertDamaged(WORDS, runs(Long.MAX_VALUE / 2, 10), "times out of order");
    assertDamaged(WORDS, runs(Long.MIN_VALUE / 2, 10), "times out of order");
  }

  /** In the form of version 1: times, then four planes. */
  @Test
  void codesWhoseTimesFallAreDamage() {
    ByteSink sink = new ByteSink();
    sink.number(2);
    sink.signed(1_000_000);
    sink.signed(-500_000);
    sink.bytes(new byte[8]);
    assertDamaged(CODES, sink, "times out of order");
  }
}
