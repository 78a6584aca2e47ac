package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import bellwire.link.LinkFormatException.Problem;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Against the examples of Cheshire and Baker, IEEE/ACM Trans. Networking 7(2), 1999, and those of
 * the public cobs-python tests (snapshot 64f8c21f).
 */
class CobsTest {
  private static final HexFormat HEX = HexFormat.of();

  static Stream<Arguments> published() {
    return Stream.of(
        Arguments.of("", "01"),
        Arguments.of("00", "0101"),
        Arguments.of("0000", "010101"),
        Arguments.of("31", "0231"),
        Arguments.of("3132333435", "063132333435"),
        Arguments.of("31323334350036373839", "0631323334350536373839"),
        Arguments.of("0031323334350036373839", "010631323334350536373839"),
        Arguments.of(run(0x01, 0xFD), "fe" + run(0x01, 0xFD)),
        Arguments.of(run(0x01, 0xFE), "ff" + run(0x01, 0xFE)),
        Arguments.of(run(0x01, 0xFF), "ff" + run(0x01, 0xFE) + "02ff"),
        Arguments.of(run(0x00, 0xFF), "01ff" + run(0x01, 0xFE) + "02ff"),
        // the paper's figure 3, without zero-pair elimination
        Arguments.of("4500002c4c79000040064f37", "024501042c4c79010540064f37"));
  }

  @ParameterizedTest
  @MethodSource("published")
  void encodesAndDecodesThePublishedExamples(String raw, String encoded) throws Exception {
    assertThat(HEX.formatHex(Cobs.encode(HEX.parseHex(raw)))).isEqualTo(encoded);
    assertThat(HEX.formatHex(decode(encoded))).isEqualTo(raw);
  }

  /** The paper's figure 2: 679 bytes without a zero become 682. */
  @Test
  void aLongRunCostsOneByteInEach254() {
    byte[] raw = new byte[679];
    Arrays.fill(raw, (byte) 7);
    byte[] encoded = Cobs.encode(raw);
    assertThat(encoded).hasSize(682);
    assertThat(encoded[0] & 0xFF).isEqualTo(0xFF);
    assertThat(encoded[255] & 0xFF).isEqualTo(0xFF);
    assertThat(encoded[510] & 0xFF).isEqualTo(0xAC);
  }

  @ParameterizedTest
  @ValueSource(strings = {"00", "05313233", "053132333400", "0531320034"})
  void refusesThePublishedErrors(String encoded) {
    assertThatExceptionOfType(LinkFormatException.class)
        .isThrownBy(() -> decode(encoded))
        .matches(e -> e.problem() == Problem.STUFFING);
  }

  @Test
  void anEmptyFrameIsRefused() {
    assertThatExceptionOfType(LinkFormatException.class).isThrownBy(() -> decode(""));
  }

  @Test
  void anyBytesComeBack() throws Exception {
    long seed = 1;
    Random random = new Random(seed);
    for (int i = 0; i < 20_000; i++) {
      byte[] raw = new byte[random.nextInt(800)];
      random.nextBytes(raw);
      int zeros = random.nextInt(4);
      for (int j = 0; j < raw.length; j++) {
        raw[j] = raw[j] == 0 || random.nextInt(10) < zeros ? (byte) (zeros == 0 ? 1 : 0) : raw[j];
      }
      byte[] encoded = Cobs.encode(raw);
      assertThat(encoded.length)
          .as("seed=%d i=%d", seed, i)
          .isLessThanOrEqualTo(Cobs.maxEncodedLength(raw.length));
      for (byte b : encoded) {
        if (b == 0) {
          throw new AssertionError("a zero: seed=" + seed + " i=" + i);
        }
      }
      assertThat(Cobs.decode(encoded, 0, encoded.length))
          .as("seed=%d i=%d", seed, i)
          .isEqualTo(raw);
    }
  }

  private static byte[] decode(String hex) throws LinkFormatException {
    byte[] encoded = HEX.parseHex(hex);
    return Cobs.decode(encoded, 0, encoded.length);
  }

  private static String run(int from, int to) {
    StringBuilder hex = new StringBuilder();
    IntStream.rangeClosed(from, to).forEach(i -> hex.append(HEX.toHexDigits((byte) i)));
    return hex.toString();
  }
}
