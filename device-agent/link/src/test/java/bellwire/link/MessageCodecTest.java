package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import bellwire.link.LinkFormatException.Problem;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class MessageCodecTest {
  private static final int NOISES = Integer.getInteger("bellwire.noise", 100_000);
  private static final HexFormat HEX = HexFormat.of();

  static List<Record> oneOfEach() {
    return TestMessages.oneOfEach();
  }

  @ParameterizedTest
  @MethodSource("oneOfEach")
  void everyMessageComesBack(Record message) throws Exception {
    Incoming expected =
        message instanceof Message.Data data
            ? new DataFrame(DataFrame.MAX_SEQUENCE, 5, data)
            : new Incoming.Plain((Message) message);
    assertThat(MessageCodec.decode(encode(message))).usingRecursiveComparison().isEqualTo(expected);
  }

  @Test
  void thereIsOneOfEach() {
    assertThat(oneOfEach()).hasSize(MessageType.values().length - 1); // all but the frame itself
  }

  @ParameterizedTest
  @MethodSource("oneOfEach")
  void fieldsOfALaterProtocolArePassedOver(Record message) throws Exception {
    CborItem.Array item = (CborItem.Array) CborItem.read(encode(message));
    Incoming expected = MessageCodec.decode(encode(message));
    List<CborItem> longer = new ArrayList<>(item.items());
    longer.add(new CborItem.Text("later"));
    longer.add(new CborItem.Array(List.of(new CborItem.Flag(true))));
    byte[] bytes = CborItem.write(new CborItem.Array(longer));
    assertThat(MessageCodec.decode(bytes)).usingRecursiveComparison().isEqualTo(expected);
  }

  /** Appended by hand: a map, a float, null and a big number behind an Arm. */
  @Test
  void fieldsOfAnyKindArePassedOver() throws Exception {
    byte[] item =
        HEX.parseHex("87" + "03" + "05" + "a10102" + "f93c00" + "f6" + "1bffffffffffffffff" + "f0");
    assertThat(MessageCodec.decode(item)).isEqualTo(new Incoming.Plain(new Message.Arm(5)));
  }

  @Test
  void aMessageOfALaterProtocolIsUnknown() throws Exception {
    assertThat(MessageCodec.decode(HEX.parseHex("82186305"))).isEqualTo(new Incoming.Unknown(99));
    assertThat(MessageCodec.decode(HEX.parseHex("840c070882186305")))
        .isEqualTo(new Incoming.UnknownData(7, 8, 99));
  }

  @ParameterizedTest
  @CsvSource({
    "'', CBOR", // nothing
    "8203, CBOR", // breaks off
    "820305ff, CBOR", // a byte more
    "05, SHAPE", // no array
    "80, SHAPE", // no number
    "8103, SHAPE", // no request
    "820361, CBOR", // text breaks off
    "82036161, SHAPE", // text for a number
    "8203f4, SHAPE", // a flag for a number
    "820320, RANGE", // request=-1
    "82031bffffffffffffffff, SHAPE", // beyond 63 bits
    "8203fb3ff0000000000000, SHAPE", // 1.0
    "822005, RANGE", // type -1
    "821b000000010000000005, RANGE", // type 2^32
    "8410050680, SHAPE", // data without a frame
    "8404050680, RANGE", // a run without steps
    "840c1b000000010000000008831201f4, RANGE", // sequence 2^32
    "840c0708820305, SHAPE", // a request in a data frame
    "8183838383838383838383, CBOR", // deep
    "9b7fffffffffffffff, CBOR", // an array said to be endless
    "82035b7fffffffffffffff, CBOR", // bytes said to be endless
    "82037affffffff61, CBOR", // text said to be endless
    "820362c328, CBOR" // not UTF-8
  })
  void badItemsAreRefusedForWhatTheyAre(String hex, String problem) {
    LinkFormatException e = refusal(HEX.parseHex(hex));
    assertThat(e).as(hex).isNotNull();
    assertThat(e.problem()).as("%s: %s", hex, e.getMessage()).isEqualTo(Problem.valueOf(problem));
  }

  @Test
  void aProgramThatBreaksTheRulesNamesItsRequest() {
    byte[] item = MessageCodec.encode((Message) oneOfEach().get(3));
    CborItem.Array run = read(item);
    List<CborItem> step = new ArrayList<>(items(items(run, 3), 0).items());
    step.set(1, new CborItem.Whole(1)); // the driven port returned as well
    LinkFormatException e = refusal(withStep(run, step));
    assertThat(e.problem()).isEqualTo(Problem.RANGE);
    assertThat(e.request()).hasValue(5);
    assertThat(e).hasMessageContaining("drive=1 returned=1");
    step.set(1, new CborItem.Whole(2));
    step.set(10, new CborItem.Whole(Rate.values().length)); // a rate that this end does not know
    assertThat(refusal(withStep(run, step)).request()).hasValue(5);
  }

  @Test
  void raggedOrForeignArraysAreRefusedWithTheirSequence() {
    Message.Samples two = TestMessages.samples(new Random(3), 2);
    CborItem.Array frame = read(MessageCodec.encode(new DataFrame(41, 0, two)));
    for (int field = 2; field <= 7; field++) {
      CborItem.Bytes good = (CborItem.Bytes) items(frame, 3).items().get(field);
      CborItem.Bytes half =
          new CborItem.Bytes(good.tag(), Arrays.copyOf(good.value(), good.value().length / 2));
      CborItem.Bytes other = new CborItem.Bytes(good.tag() + 1, good.value());
      CborItem.Bytes odd =
          new CborItem.Bytes(good.tag(), Arrays.copyOf(good.value(), good.value().length + 1));
      CborItem.Bytes many = new CborItem.Bytes(good.tag(), new byte[8 * 1025]);
      for (CborItem.Bytes bad : List.of(half, other, odd, many)) {
        LinkFormatException e = refusal(replace(frame, 3, replaced(items(frame, 3), field, bad)));
        assertThat(e).as("field=%d bytes=%s", field, bad).isNotNull();
        assertThat(e.sequence()).hasValue(41);
      }
    }
  }

  @Test
  void theLargestMessagesFitAFrame() {
    int run = MessageCodec.encode(TestMessages.largestRun()).length;
    Message.Samples most = TestMessages.samples(new Random(4), MessageCodec.MAX_SAMPLES);
    int samples = MessageCodec.encode(new DataFrame(1, 1, most)).length;
    assertThat(run).isBetween(31_000, 31_800).isLessThan(FrameCodec.MAX_ITEM_BYTES);
    assertThat(samples).isLessThan(FrameCodec.MAX_ITEM_BYTES);
    // docs/protocol.md states it: 27 bytes a conversion.
    assertThat((samples - 40.0) / MessageCodec.MAX_SAMPLES).isBetween(26.9, 27.0);
  }

  @Test
  void aThousandCallWordsASecondFit115200Baud() {
    Message.CallSamples batch = TestMessages.callSamples(new Random(5), 100);
    byte[] frame =
        FrameCodec.encode(MessageCodec.encode(new DataFrame(1_000_000, 1L << 40, batch)));
    // docs/protocol.md states it: ten frames and the acknowledged line's 11.5 kB a second.
    assertThat(10 * frame.length).isBetween(8000, 8800);
    Message.CallSamples most = TestMessages.callSamples(new Random(6), MessageCodec.MAX_SAMPLES);
    assertThat(MessageCodec.encode(new DataFrame(1, 1, most)).length)
        .isLessThan(FrameCodec.MAX_ITEM_BYTES);
  }

  @Test
  void aWatchThatBreaksTheRulesNamesItsRequest() {
    CborItem.Array sense = read(MessageCodec.encode(new Message.SenseCalls(5, 6, false, 1)));
    LinkFormatException e = refusal(replace(sense, 4, new CborItem.Whole(1 << 16)));
    assertThat(e.problem()).isEqualTo(Problem.RANGE);
    assertThat(e.request()).hasValue(5);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> MessageCodec.encode(new Message.SenseCalls(5, 6, false, 1 << 16)))
        .withMessage("loads=65536");
  }

  @Test
  void raggedCallSamplesAreRefusedWithTheirSequence() {
    Message.CallSamples two = TestMessages.callSamples(new Random(3), 2);
    CborItem.Array frame = read(MessageCodec.encode(new DataFrame(41, 0, two)));
    for (int field = 3; field <= 6; field++) {
      CborItem.Bytes good = (CborItem.Bytes) items(frame, 3).items().get(field);
      CborItem.Bytes half = new CborItem.Bytes(good.tag(), Arrays.copyOf(good.value(), 2));
      LinkFormatException e = refusal(replace(frame, 3, replaced(items(frame, 3), field, half)));
      assertThat(e).as("field=%d", field).isNotNull();
      assertThat(e.sequence()).hasValue(41);
    }
    CborItem.Bytes delta = (CborItem.Bytes) items(frame, 3).items().get(3);
    CborItem.Bytes late = new CborItem.Bytes(delta.tag(), new byte[] {1, 0, 0, 0});
    LinkFormatException e = refusal(replace(frame, 3, replaced(items(frame, 3), 3, late)));
    assertThat(e).hasMessageContaining("delta=1");
  }

  @Test
  void theLargestRunComesBack() throws Exception {
    Message.Run run = TestMessages.largestRun();
    assertThat(MessageCodec.decode(MessageCodec.encode(run))).isEqualTo(new Incoming.Plain(run));
  }

  @Test
  void whatTheCallerMayNotSendIsNamed() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> MessageCodec.encode(new Message.Arm(-1)))
        .withMessage("request=-1");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> MessageCodec.encode(new Message.Trouble("converter", "no answer")))
        .withMessageContaining("message=Trouble");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new DataFrame(1L << 32, 0, new Message.Trouble("", "")))
        .withMessage("sequence=4294967296");
    Message.Samples beyond =
        new Message.Samples(
            1,
            new int[] {0},
            new int[] {1 << 23},
            new long[1],
            new long[1],
            new int[1],
            new int[1]);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> MessageCodec.encode(new DataFrame(1, 0, beyond)))
        .withMessage("code=8388608");
  }

  @Test
  void aLongReasonIsCutAndHalfACharacterReplaced() throws Exception {
    Message.Reply reply = new Message.Reply(1, false, "\ud800" + "x".repeat(5000));
    Incoming.Plain back = (Incoming.Plain) MessageCodec.decode(MessageCodec.encode(reply));
    String reason = ((Message.Reply) back.message()).reason();
    assertThat(reason).hasSize(1000).startsWith("?x").endsWith("x…");
  }

  /** Pure noise, and messages with bytes changed, cut, doubled. */
  @Test
  void noiseNeverThrowsAnythingElse() {
    long seed = 5;
    Random random = new Random(seed);
    List<byte[]> good = new ArrayList<>();
    for (Record message : oneOfEach()) {
      good.add(encode(message));
    }
    int refused = 0;
    for (int i = 0; i < NOISES; i++) {
      byte[] noise;
      if (random.nextInt(3) == 0) {
        noise = new byte[random.nextInt(64)];
        random.nextBytes(noise);
      } else {
        noise = spoil(good.get(random.nextInt(good.size())), random);
      }
      try {
        MessageCodec.decode(noise);
      } catch (LinkFormatException e) {
        refused++;
        assertThat(e).hasMessageMatching("(?s).+");
      } catch (RuntimeException | Error e) {
        throw new AssertionError("seed=" + seed + " i=" + i + " " + HEX.formatHex(noise), e);
      }
    }
    assertThat(refused).isGreaterThan(NOISES / 2);
  }

  @Test
  void noiseOnTheLineNeverThrows() {
    long seed = 6;
    Random random = new Random(seed);
    FrameReader reader = new FrameReader();
    List<byte[]> items = new ArrayList<>();
    for (int i = 0; i < NOISES; i++) {
      byte[] noise = new byte[random.nextInt(64)];
      random.nextBytes(noise);
      reader.feed(noise, 0, noise.length, items::add);
    }
    assertThat(items).as("2^-32 each").isEmpty();
    assertThat(reader.counts().damaged()).isGreaterThan(NOISES / 100);
  }

  private static byte[] spoil(byte[] good, Random random) {
    byte[] bytes = Arrays.copyOf(good, good.length + random.nextInt(3) - 1);
    int changes = random.nextInt(4);
    for (int i = 0; i < changes && bytes.length > 0; i++) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt();
    }
    return bytes;
  }

  private static byte[] encode(Record message) {
    return message instanceof Message.Data data
        ? MessageCodec.encode(new DataFrame(DataFrame.MAX_SEQUENCE, 5, data))
        : MessageCodec.encode((Message) message);
  }

  private static LinkFormatException refusal(byte[] item) {
    return catchThrowableOfType(LinkFormatException.class, () -> MessageCodec.decode(item));
  }

  private static CborItem.Array read(byte[] item) {
    try {
      return (CborItem.Array) CborItem.read(item);
    } catch (LinkFormatException e) {
      throw new AssertionError(e);
    }
  }

  private static CborItem.Array items(CborItem.Array array, int at) {
    return (CborItem.Array) array.items().get(at);
  }

  private static CborItem.Array replaced(CborItem.Array array, int at, CborItem item) {
    List<CborItem> items = new ArrayList<>(array.items());
    items.set(at, item);
    return new CborItem.Array(items);
  }

  private static byte[] replace(CborItem.Array array, int at, CborItem item) {
    return CborItem.write(replaced(array, at, item));
  }

  private static byte[] withStep(CborItem.Array run, List<CborItem> step) {
    return replace(run, 3, new CborItem.Array(List.of(new CborItem.Array(step))));
  }
}
