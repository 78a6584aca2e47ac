package bellwire.fuzz;

import bellwire.link.Check;
import bellwire.link.DataFrame;
import bellwire.link.FrameCodec;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;

/** One message of each kind, as a fuzzer may begin with. */
final class MessageSeeds {
  private static final ScanStep STEP =
      new ScanStep(
          1,
          2,
          4,
          true,
          Range.LOW,
          Check.NONE,
          false,
          Tap.sense(0),
          Tap.sense(1),
          1,
          Rate.SPS_4000,
          100,
          2);
  private static final Message.Interlock CLEAR = new Message.Interlock(false, false, 0);

  private MessageSeeds() {}

  static List<Message> fromHost() {
    return List.of(
        new Message.Greet(1, 77, 0, true),
        new Message.Acknowledge(1, 2),
        new Message.Arm(1),
        new Message.Run(2, 3, List.of(STEP)),
        new Message.Stop(4),
        new Message.Ping(5),
        new Message.SenseCalls(6, 7, true, 0),
        new Message.KeepVigil(
            8, 9, Message.KeepVigil.Kind.CONTINUITY, 7, 0, false, 0, 1_000_000, List.of()),
        new Message.NotUnderstood(55));
  }

  static List<Message> fromAgent() {
    return List.of(
        new Message.Welcome(1, "0.1", "A", 77, 0, 3, "", 921_600, 0),
        new Message.Reply(1, false, "interlock not clear"),
        new Message.Alive(2, CLEAR, 0, 1 << 20));
  }

  static List<Message.Data> data() {
    int[] two = {0, 1};
    int[] ticks = {1, 2};
    Message.Data trouble = new Message.Trouble("converter", "no answer");
    return List.of(
        new Message.Samples(3, two, two, new long[] {5, 6}, new long[] {7, 8}, two, two),
        new Message.Ended(3, Message.Ended.Outcome.DONE, ""),
        new Message.InterlockChanged(CLEAR),
        trouble,
        new Message.CallSamples(3, 10, two, two, two, two),
        new Message.EventSamples(9, 10, new long[] {0, 1000}, ticks, two, two, two),
        new Message.Recorded(66, 30, 31, trouble, 4, 5));
  }

  static List<byte[]> items() {
    List<byte[]> items = new ArrayList<>();
    fromHost().forEach(message -> items.add(MessageCodec.encode(message)));
    fromAgent().forEach(message -> items.add(MessageCodec.encode(message)));
    for (Message.Data message : data()) {
      items.add(MessageCodec.encode(new DataFrame(items.size(), 1000, message)));
    }
    return items;
  }

  /** Each in a frame, and all of them one behind the other. */
  static List<byte[]> frames() {
    List<byte[]> frames = new ArrayList<>(items().stream().map(FrameCodec::encode).toList());
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    frames.forEach(all::writeBytes);
    frames.add(all.toByteArray());
    return frames;
  }
}
