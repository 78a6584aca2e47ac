package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import bellwire.link.LinkFormatException.Problem;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class FrameTest {

  /**
   * CRC-32C on the wire: "123456789" from the public crc-catalog (CRC-32/ISCSI, check E3069283);
   * the others from RFC 3720, appendix B.4, low byte first as printed there.
   */
  static Stream<Arguments> checksums() {
    byte[] ff = new byte[32];
    Arrays.fill(ff, (byte) 0xFF);
    byte[] up = new byte[32];
    byte[] down = new byte[32];
    for (int i = 0; i < 32; i++) {
      up[i] = (byte) i;
      down[i] = (byte) (31 - i);
    }
    return Stream.of(
        Arguments.of("123456789".getBytes(StandardCharsets.US_ASCII), "839206e3"),
        Arguments.of(new byte[32], "aa36918a"),
        Arguments.of(ff, "43aba862"),
        Arguments.of(up, "4e79dd46"),
        Arguments.of(down, "5cdb3f11"));
  }

  @ParameterizedTest
  @MethodSource("checksums")
  void aFrameEndsInItsChecksumLowByteFirst(byte[] item, String checksum) throws Exception {
    byte[] frame = FrameCodec.encode(item);
    assertThat(frame[frame.length - 1]).isZero();
    byte[] raw = Cobs.decode(frame, 0, frame.length - 1);
    assertThat(HexFormat.of().formatHex(raw, item.length, raw.length)).isEqualTo(checksum);
    assertThat(FrameCodec.decode(frame, 0, frame.length - 1)).isEqualTo(item);
  }

  @Test
  void theLargestItemFitsAFrameWhateverItHolds() throws Exception {
    byte[] item = new byte[FrameCodec.MAX_ITEM_BYTES];
    Arrays.fill(item, (byte) 1);
    byte[] frame = FrameCodec.encode(item);
    assertThat(frame.length).isLessThanOrEqualTo(FrameCodec.MAX_FRAME_BYTES);
    assertThat(read(new FrameReader(), frame)).containsExactly(item);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> FrameCodec.encode(new byte[FrameCodec.MAX_ITEM_BYTES + 1]))
        .withMessageContaining("length=65001");
    assertThatIllegalArgumentException().isThrownBy(() -> FrameCodec.encode(new byte[0]));
  }

  @Test
  void everySingleBitOfDamageIsFound() {
    byte[] frame = FrameCodec.encode("a conductor".getBytes(StandardCharsets.US_ASCII));
    for (int bit = 0; bit < 8 * (frame.length - 1); bit++) {
      byte[] damaged = frame.clone();
      damaged[bit / 8] ^= (byte) (1 << (bit % 8));
      assertThatExceptionOfType(LinkFormatException.class)
          .as("bit=%d", bit)
          .isThrownBy(() -> FrameCodec.decode(damaged, 0, damaged.length - 1));
    }
  }

  @Test
  void aFrameTooShortForAChecksumIsSaidToBe() {
    assertThatExceptionOfType(LinkFormatException.class)
        .isThrownBy(() -> FrameCodec.decode(new byte[] {2, 1}, 0, 2))
        .matches(e -> e.problem() == Problem.SIZE);
  }

  @Test
  void theReaderTakesBytesCutAnywhereAndGoesOnBehindDamage() {
    long seed = 2;
    Random random = new Random(seed);
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    List<byte[]> sent = new ArrayList<>();
    int damaged = 0;
    for (int i = 0; i < 500; i++) {
      byte[] item = new byte[1 + random.nextInt(600)];
      random.nextBytes(item);
      byte[] frame = FrameCodec.encode(item);
      if (random.nextInt(5) == 0) {
        int at = random.nextInt(frame.length - 1);
        frame[at] = (byte) (frame[at] == 1 ? 2 : 1);
        damaged++;
      } else {
        sent.add(item);
      }
      line.writeBytes(frame);
      line.writeBytes(new byte[random.nextInt(3)]);
    }
    FrameReader reader = new FrameReader();
    List<byte[]> got = new ArrayList<>();
    byte[] bytes = line.toByteArray();
    for (int at = 0; at < bytes.length; ) {
      int length = Math.min(1 + random.nextInt(300), bytes.length - at);
      reader.feed(bytes, at, length, got::add);
      at += length;
    }
    assertThat(got).as("seed=%d", seed).containsExactlyElementsOf(sent);
    assertThat(reader.counts()).isEqualTo(new FrameReader.Counts(sent.size(), damaged, 0));
  }

  @Test
  void anEndlessFrameIsDroppedOnceAndTheNextOneRead() {
    FrameReader reader = new FrameReader();
    byte[] endless = new byte[3 * FrameCodec.MAX_FRAME_BYTES];
    Arrays.fill(endless, (byte) 9);
    assertThat(read(reader, endless)).isEmpty();
    assertThat(read(reader, new byte[] {0})).isEmpty();
    assertThat(read(reader, FrameCodec.encode(new byte[] {5}))).containsExactly(new byte[] {5});
    assertThat(reader.counts()).isEqualTo(new FrameReader.Counts(1, 0, 1));
  }

  @Test
  void aFrameBegunBeforeTheLineWasCutIsForgotten() {
    FrameReader reader = new FrameReader();
    byte[] frame = FrameCodec.encode(new byte[] {1, 2, 3});
    read(reader, Arrays.copyOf(frame, 4));
    reader.reset();
    assertThat(reader.counts().damaged()).isEqualTo(1);
    assertThat(read(reader, frame)).containsExactly(new byte[] {1, 2, 3});
    reader.reset(); // between two frames
    assertThat(reader.counts().damaged()).isEqualTo(1);
  }

  /** Any sender may make these: an item a byte too long, and a frame that no delimiter ends. */
  @Test
  void whatIsTooLongIsNotDecoded() {
    byte[] raw = new byte[FrameCodec.MAX_ITEM_BYTES + 5];
    byte[] frame = Cobs.encode(raw);
    assertThatExceptionOfType(LinkFormatException.class)
        .isThrownBy(() -> FrameCodec.decode(frame, 0, frame.length))
        .matches(e -> e.problem() == Problem.SIZE);
    assertThatExceptionOfType(LinkFormatException.class)
        .isThrownBy(() -> FrameCodec.decode(new byte[65_536], 0, 65_536))
        .matches(e -> e.problem() == Problem.SIZE)
        .matches(e -> e.request().isEmpty() && e.sequence().isEmpty());
  }

  private static List<byte[]> read(FrameReader reader, byte[] bytes) {
    List<byte[]> items = new ArrayList<>();
    reader.feed(bytes, 0, bytes.length, items::add);
    return items;
  }
}
