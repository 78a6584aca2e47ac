package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import bellwire.link.LinkFormatException.Problem;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The ends of the ranges that docs/link.cddl states, from either side, at both ends of the link.
 */
class FieldLimitsTest {
  private static final int LEAST_CODE = -8_388_608; // 24 bits, two's complement
  private static final int GREATEST_CODE = 8_388_607;

  private static Message.Samples samples(int code, long deviceMicros, int... steps) {
    int n = Math.max(1, steps.length);
    int[] codes = new int[n];
    codes[n - 1] = code;
    long[] times = new long[n];
    times[n - 1] = deviceMicros;
    return new Message.Samples(1, new int[n], codes, times, new long[n], new int[n], new int[n]);
  }

  private static Message.CallSamples calls(long firstMicros, int... deltas) {
    int n = deltas.length;
    return new Message.CallSamples(1, firstMicros, deltas, new int[n], new int[n], new int[n]);
  }

  private static Message.EventSamples events(long firstMicros, int ticks, long... deltas) {
    int n = deltas.length;
    int[] all = new int[n];
    Arrays.fill(all, ticks);
    return new Message.EventSamples(
        1, firstMicros, deltas, all, new int[n], new int[n], new int[n]);
  }

  private static void comesBack(Message.Data message) throws Exception {
    DataFrame frame = new DataFrame(3, 4, message);
    assertThat(MessageCodec.decode(MessageCodec.encode(frame)))
        .usingRecursiveComparison()
        .isEqualTo(frame);
  }

  private static void isNotSent(Message.Data message, String because) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> MessageCodec.encode(new DataFrame(3, 4, message)))
        .withMessageContaining(because);
  }

  /** As a stranger may send it: the good message with another item in that place. */
  private static void isRefused(Message.Data good, int field, CborItem bad, Problem problem)
      throws Exception {
    CborItem.Array frame =
        (CborItem.Array) CborItem.read(MessageCodec.encode(new DataFrame(3, 4, good)));
    List<CborItem> fields = new ArrayList<>(((CborItem.Array) frame.items().get(3)).items());
    fields.set(field, bad);
    List<CborItem> items = new ArrayList<>(frame.items());
    items.set(3, new CborItem.Array(fields));
    byte[] bytes = CborItem.write(new CborItem.Array(items));
    LinkFormatException refusal =
        catchThrowableOfType(LinkFormatException.class, () -> MessageCodec.decode(bytes));
    assertThat(refusal).as("field=%d", field).isNotNull();
    assertThat(refusal.problem()).isEqualTo(problem);
    assertThat(refusal.sequence()).hasValue(3);
  }

  private static CborItem sint32(int... values) {
    return typed(TypedArray.SINT32, Arrays.stream(values).asLongStream().toArray());
  }

  private static CborItem typed(TypedArray kind, long... values) {
    return new CborItem.Bytes(kind.tag(), kind.pack("test", values));
  }

  @Test
  void aCodeHasTwentyFourBits() throws Exception {
    comesBack(samples(LEAST_CODE, 0));
    comesBack(samples(GREATEST_CODE, 0, 0, 1));
    isNotSent(samples(LEAST_CODE - 1, 0), "code=-8388609");
    isNotSent(samples(GREATEST_CODE + 1, 0, 0, 1), "code=8388608");
    isRefused(samples(0, 0), 3, sint32(LEAST_CODE - 1), Problem.RANGE);
    isRefused(samples(0, 0, 0, 1), 3, sint32(0, GREATEST_CODE + 1), Problem.RANGE);
  }

  @Test
  void timesHaveSixtyThreeBits() throws Exception {
    comesBack(samples(0, 0));
    isNotSent(samples(0, -1), "deviceMicros=-1");
    isRefused(samples(0, 0), 4, typed(TypedArray.UINT64, -1), Problem.RANGE);
    isRefused(samples(0, 0, 0, 1), 4, typed(TypedArray.UINT64, 0, Long.MIN_VALUE), Problem.RANGE);
  }

  @Test
  void theFirstOfABatchIsAtItsTime() throws Exception {
    comesBack(calls(5));
    comesBack(calls(5, 0));
    comesBack(events(5, 1));
    comesBack(events(5, 1, 0));
    isNotSent(calls(5, 1), "first deltaMicros=1");
    isNotSent(events(5, 1, 1), "first deltaMicros=1");
    isRefused(calls(5, 0), 3, typed(TypedArray.UINT16, 1), Problem.RANGE);
    isRefused(events(5, 1, 0), 3, typed(TypedArray.UINT32, 1), Problem.RANGE);
  }

  /** A batch's last time is its first with every difference added: it must not wrap. */
  @Test
  void noTimeOfABatchWraps() throws Exception {
    long lastOfCalls = Long.MAX_VALUE - (1L << 32);
    long lastOfEvents = Long.MAX_VALUE - (1L << 43);
    comesBack(calls(lastOfCalls, 0));
    comesBack(events(lastOfEvents, 1, 0));
    isRefused(calls(5, 0), 2, new CborItem.Whole(lastOfCalls + 1), Problem.RANGE);
    isRefused(events(5, 1, 0), 2, new CborItem.Whole(lastOfEvents + 1), Problem.RANGE);
  }

  @Test
  void aRunOfReadingsHasOneAtLeast() throws Exception {
    comesBack(events(5, 1, 0, 7));
    isNotSent(events(5, 0, 0, 7), "ticks=0");
    isRefused(events(5, 1, 0, 7), 4, typed(TypedArray.UINT16, 1, 0), Problem.RANGE);
  }

  @Test
  void aBatchHasAThousandAndTwentyFourAtMost() throws Exception {
    comesBack(samples(0, 0, new int[1024]));
    comesBack(calls(0, new int[1024]));
    comesBack(events(0, 1, new long[1024]));
    isNotSent(samples(0, 0, new int[1025]), "length=1025");
    isNotSent(calls(0, new int[1025]), "length=1025");
    isNotSent(events(0, 1, new long[1025]), "length=1025");
    isRefused(calls(0, 0), 3, typed(TypedArray.UINT16, new long[1025]), Problem.RANGE);
  }

  @Test
  void raggedBatchesAreNotSent() {
    int[] two = new int[2];
    long[] twoLong = new long[2];
    int[] one = new int[1];
    long[] oneLong = new long[1];
    List<Message.Data> ragged =
        List.of(
            new Message.Samples(1, two, one, twoLong, twoLong, two, two),
            new Message.Samples(1, two, two, oneLong, twoLong, two, two),
            new Message.Samples(1, two, two, twoLong, oneLong, two, two),
            new Message.Samples(1, two, two, twoLong, twoLong, one, two),
            new Message.Samples(1, two, two, twoLong, twoLong, two, one),
            new Message.CallSamples(1, 0, two, one, two, two),
            new Message.CallSamples(1, 0, two, two, one, two),
            new Message.CallSamples(1, 0, two, two, two, one),
            new Message.EventSamples(1, 0, twoLong, one, two, two, two),
            new Message.EventSamples(1, 0, twoLong, new int[] {1, 1}, one, two, two),
            new Message.EventSamples(1, 0, twoLong, new int[] {1, 1}, two, one, two),
            new Message.EventSamples(1, 0, twoLong, new int[] {1, 1}, two, two, one));
    assertThat(ragged).allSatisfy(message -> isNotSent(message, "ragged"));
  }

  @Test
  void raggedEventsAreRefused() throws Exception {
    Message.EventSamples two = events(5, 1, 0, 7);
    for (int field = 4; field <= 7; field++) {
      TypedArray kind = field == 7 ? TypedArray.UINT8 : TypedArray.UINT16;
      isRefused(two, field, typed(kind, 1), Problem.SHAPE);
    }
  }

  /** Cut where it is sent, refused where it comes: a reason goes on as it is up to 1000. */
  @Test
  void aTextHasAThousandUnits() throws Exception {
    comesBack(new Message.Trouble("converter", "x".repeat(1000)));
    isRefused(
        new Message.Trouble("converter", "x"),
        2,
        new CborItem.Text("x".repeat(1001)),
        Problem.RANGE);
  }

  @Test
  void valuesThatDoNotFitTheirArrayAreNotSent() {
    for (TypedArray kind : List.of(TypedArray.UINT8, TypedArray.UINT16, TypedArray.UINT32)) {
      long most = kind == TypedArray.UINT8 ? 255 : kind == TypedArray.UINT16 ? 65_535 : 4294967295L;
      assertThat(kind.pack("x", new long[] {0, most})).endsWith(-1);
      assertThatIllegalArgumentException()
          .isThrownBy(() -> kind.pack("x", new long[] {most + 1}))
          .withMessage("x=%d does not fit %s", most + 1, kind);
      assertThatIllegalArgumentException().isThrownBy(() -> kind.pack("x", new long[] {-1}));
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> TypedArray.SINT32.pack("x", new long[] {1L << 31}));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> TypedArray.SINT32.pack("x", new long[] {-(1L << 31) - 1}));
  }

  @Test
  void aRecordedMessageIsOfOneKindOfDataOnly() throws Exception {
    Message.Trouble told = new Message.Trouble("crosspoint", "no answer");
    Message.Recorded good = new Message.Recorded(29, 30, 31, told, 4, 5);
    comesBack(good);
    CborItem.Array frame =
        (CborItem.Array) CborItem.read(MessageCodec.encode(new DataFrame(3, 4, good)));
    isRefused(good, 4, frame.items().get(3), Problem.SHAPE); // a record of a record
    isRefused(
        good,
        4,
        new CborItem.Array(List.of(new CborItem.Whole(99), new CborItem.Whole(1))),
        Problem.SHAPE); // of a later protocol
    isRefused(good, 5, new CborItem.Whole(31), Problem.RANGE); // lost more than there were
  }

  @Test
  void messagesKeepTheirOwnRules() {
    ScanStep step = TestMessages.largestRun().steps().get(0);
    List<ScanStep> most = Collections.nCopies(1024, step);
    List<ScanStep> more = Collections.nCopies(1025, step);
    assertThat(new Message.Run(1, 1, most).steps()).hasSize(1024);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Message.Run(1, 1, more))
        .withMessage("steps=1025");
    assertThatIllegalArgumentException().isThrownBy(() -> new Message.Run(1, 1, List.of()));
    assertThat(vigil(Message.KeepVigil.Kind.TREND, most).steps()).hasSize(1024);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> vigil(Message.KeepVigil.Kind.TREND, more));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> vigil(Message.KeepVigil.Kind.TREND, List.of()));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> vigil(Message.KeepVigil.Kind.TOUCH, List.of(step)))
        .withMessage("kind=TOUCH steps=1");
    assertThat(new Message.Acknowledge(4, 4).received()).isEqualTo(4);
    assertThatIllegalArgumentException().isThrownBy(() -> new Message.Acknowledge(4, 3));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new DataFrame(0, -1, new Message.Trouble("", "")))
        .withMessage("deviceMicros=-1");
  }

  private static Message.KeepVigil vigil(Message.KeepVigil.Kind kind, List<ScanStep> steps) {
    return new Message.KeepVigil(1, 2, kind, 3, 0, false, 0, 1_000_000, steps);
  }

  @Test
  void aRecordIsOfWhatWasThere() {
    Message.Trouble told = new Message.Trouble("", "");
    Message.Recorded last = new Message.Recorded(1, 4, 0, told, 4, 0);
    assertThat(last.lost()).isEqualTo(4);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Message.Recorded(1, 4, 0, last, 0, 0))
        .withMessage("recorded twice: sequence=4");
    for (long[] bad : new long[][] {{5, 0}, {-1, 0}, {0, -1}}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new Message.Recorded(1, 4, 0, told, bad[0], bad[1]));
    }
  }
}
