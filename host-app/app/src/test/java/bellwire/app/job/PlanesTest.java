package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Payloads of converter codes, byte for byte where it is short. */
class PlanesTest {
  private static final long PERIOD_MICROS = 160_000;

  @Test
  void itsBytesAreThoseThatTheDocumentSays() throws Exception {
    // Of 8, 8, 8 and 14 bits, usually 9: 6 are packed. 9000 = 140·64 + 40.
    long[] numbers = {200, 255, 200, 9000};
    ByteSink sink = new ByteSink();
    Planes.write(sink, numbers);
    assertThat(sink.taken())
        .containsExactly(6, 1, 3, 3, 3, (byte) 140, (byte) 200, (byte) 143, (byte) 160);
  }

  @Test
  void whateverIsWrittenComesBack() throws Exception {
    long seed = 63;
    System.out.println("PlanesTest: seed=" + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 2000; round++) {
      int bits = 1 + random.nextInt(62);
      long[] numbers = new long[random.nextInt(40)];
      for (int i = 0; i < numbers.length; i++) {
        boolean usual = random.nextInt(10) > 0;
        numbers[i] = random.nextLong() >>> (usual ? 64 - bits : 1 + random.nextInt(63));
      }
      ByteSink sink = new ByteSink();
      Planes.write(sink, numbers);
      ByteSource source = new ByteSource(sink.taken());
      assertThat(Planes.read(source, numbers.length)).isEqualTo(numbers);
      assertThat(source.atEnd()).isTrue();
      if (numbers.length > 0) {
        ByteSource cutOff = new ByteSource(Arrays.copyOf(sink.taken(), sink.taken().length - 1));
        assertThatThrownBy(() -> Planes.read(cutOff, numbers.length)).isInstanceOf(Damage.class);
      }
    }
  }

  @Test
  void latesGapsAndExtremeCodesOfASpanComeBack() throws Exception {
    Stream stream = Stream.of(Stream.Kind.CODES, "P3", PERIOD_MICROS, 1).withId(5);
    Random random = new Random(64);
    CodeSpan span = new CodeSpan(stream);
    StringBuilder written = new StringBuilder();
    long micros = -7;
    for (int i = 0; i < 2000; i++) {
      micros += PERIOD_MICROS + random.nextInt(101) - 50;
      micros += random.nextInt(500) == 0 ? 90_000_000 : 0;
      int code = random.nextInt(100) == 0 ? (i % 2 == 0 ? -(1 << 23) : (1 << 23) - 1) : i;
      span.add(micros, 1, code, 0, 0);
      written.append(micros).append(':').append(code).append(' ');
    }
    Packed.Place place = new Packed.Place(5, 0, 0);
    StringBuilder read = new StringBuilder();
    Span.decoded(stream, Packed.of(place, span.encoded()).plain(place))
        .forEach((first, count, value, latches, code) -> read.append(first + ":" + value + " "));
    assertThat(read).hasToString(written.toString());
  }

  /**
   * Buckets of codes as version 1 wrote them: seen, then least, greatest, latches as differences.
   */
  @Test
  void aPyramidsRowOfVersion1IsRead() throws Exception {
    Stream stream = new Stream(5, Stream.Kind.CODES, "P3", 50_000, 1, 1 << 22, 256);
    ByteSink older = new ByteSink();
    for (int i = 0; i < 256; i++) {
      older.octet(i == 3 || i == 200 ? 1 : 0);
    }
    for (long difference : new long[] {-400, 20, 400_000, -5, 0, 0}) {
      older.signed(difference);
    }
    PyramidRow row = PyramidRow.decoded(stream, older.taken());
    assertThat(row.seen(0)).isFalse();
    assertThat(row.low(3)).isEqualTo(-400);
    assertThat(row.low(200)).isEqualTo(-380);
    assertThat(row.high(3)).isEqualTo(400_000);
    assertThat(row.high(200)).isEqualTo(399_995);
    PyramidRow again = PyramidRow.decoded(stream, row.encoded().taken());
    assertThat(again.high(200)).isEqualTo(399_995);
    assertThat(again.low(3)).isEqualTo(-400);
    assertThat(again.seen(201)).isFalse();
  }
}
