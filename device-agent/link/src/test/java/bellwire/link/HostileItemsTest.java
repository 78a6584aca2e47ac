package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import bellwire.link.LinkFormatException.Problem;
import com.sun.management.ThreadMXBean;
import java.io.ByteArrayOutputStream;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Items that nobody sends by mistake: RFC 8949's heads with lengths and depths of their own. */
class HostileItemsTest {
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  private static LinkFormatException refused(byte[] item) {
    LinkFormatException e =
        catchThrowableOfType(LinkFormatException.class, () -> MessageCodec.decode(item));
    assertThat(e).isNotNull();
    return e;
  }

  /** Byte and text strings of 250 000 and of 2^63 bytes, and in an array; none is there. */
  @ParameterizedTest
  @ValueSource(strings = {"5a0003d090", "7a0003d090", "5bffffffffffffffff", "83085a0003d09001"})
  void aStringThatSaysItIsLongerThanTheItemTakesNoMemory(String hex) {
    byte[] item = HexFormat.of().parseHex(hex);
    assertThat(refused(item).problem()).isEqualTo(Problem.CBOR);
    long before = THREADS.getCurrentThreadAllocatedBytes();
    for (int i = 0; i < 100; i++) {
      assertThat(catchThrowableOfType(LinkFormatException.class, () -> CborItem.read(item)))
          .isNotNull();
    }
    assertThat(THREADS.getCurrentThreadAllocatedBytes() - before).isLessThan(100 * 32_000);
  }

  @ParameterizedTest
  @CsvSource({"129", "159", "161", "191", "193"})
  void depthIsRefused(int head) {
    byte[] deep = new byte[60_000];
    Arrays.fill(deep, (byte) head);
    refused(deep);
  }

  @Test
  void anArrayOfMoreThanThereIsRefusedAndOneOfTooManyToo() {
    refused(HexFormat.of().parseHex("9bffffffffffffffff"));
    refused(HexFormat.of().parseHex("9a7fffffff08"));
    byte[] many = new byte[FrameCodec.MAX_ITEM_BYTES];
    many[0] = (byte) 0x99;
    many[1] = (byte) ((many.length - 3) >> 8);
    many[2] = (byte) (many.length - 3);
    assertThat(refused(many).problem()).isEqualTo(Problem.SIZE);
  }

  @Test
  void aStringInPiecesStaysWithinTheItem() {
    ByteArrayOutputStream pieces = new ByteArrayOutputStream();
    pieces.write(0x5F);
    for (int i = 0; i < 30_000; i++) {
      pieces.write(0x41);
      pieces.write(i);
    }
    refused(pieces.toByteArray());
  }

  /** What no agent can be, and a host could not take up again. */
  @ParameterizedTest
  @CsvSource({
    "0, 0, 0",
    "77, 4294967297, 4294967297",
    "77, 9223372036854775807, 9223372036854775807",
    "77, 4, 3",
    "77, 0, 4294967297"
  })
  void aWelcomeOfNoBootOrOfNumbersBeyondTheLastIsRefused(long boot, long oldest, long next) {
    byte[] item =
        MessageCodec.encode(new Message.Welcome(1, "0.1", "A", boot, oldest, next, "", 115_200, 0));
    assertThat(refused(item).problem()).isEqualTo(Problem.RANGE);
  }

  @Test
  void aWelcomeOfTheLastNumberIsTaken() throws Exception {
    long end = DataFrame.MAX_SEQUENCE + 1;
    Message.Welcome last = new Message.Welcome(1, "0.1", "A", 1, end, end, "", 115_200, 0);
    assertThat(MessageCodec.decode(MessageCodec.encode(last))).isEqualTo(new Incoming.Plain(last));
  }
}
