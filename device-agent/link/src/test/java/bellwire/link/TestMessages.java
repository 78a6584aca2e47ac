package bellwire.link;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/** Messages for tests: one of each with its fields all different, and random ones from a seed. */
final class TestMessages {
  private TestMessages() {}

  /** One of each, no two fields of a message alike. */
  static List<Record> oneOfEach() {
    Message.Interlock interlock = new Message.Interlock(true, false, 0x1_0003);
    ScanStep step =
        new ScanStep(
            1,
            2,
            0x1_FFFC,
            true,
            Range.HIGH,
            Check.LOW,
            false,
            Tap.sense(16),
            Tap.RETURN_BUS,
            64,
            Rate.SPS_4000,
            15_999,
            4095);
    return List.of(
        new Message.Greet(1, 1L << 40, 77, true),
        new Message.Acknowledge(78, 80),
        new Message.Arm(Long.MAX_VALUE),
        new Message.Run(5, 6, List.of(step)),
        new Message.Stop(7),
        new Message.Ping(8),
        new Message.SenseCalls(13, 14, true, 0x8001),
        new Message.Welcome(1, "0.1", "A", 99, 10, 20, "reference out of range", 921_600, 0),
        new Message.Reply(9, false, "interlock not clear"),
        new Message.Alive(10, interlock, 21, 22),
        new Message.KeepVigil(
            23, 24, Message.KeepVigil.Kind.TREND, 0x8001, 3, true, 0x0110, 26, List.of(step)),
        new Message.NotUnderstood(55),
        new Message.Samples(
            11,
            new int[] {0, 65_535},
            new int[] {-8_388_608, 8_388_607},
            new long[] {1, Long.MAX_VALUE},
            new long[] {-1, 2},
            new int[] {0x0B0A_0703, -2},
            new int[] {0, 255}),
        new Message.Ended(12, Message.Ended.Outcome.INTERLOCK, "P3 outside the window: μV, 水"),
        new Message.InterlockChanged(interlock),
        new Message.Trouble("converter", "no answer"),
        new Message.CallSamples(
            15,
            16,
            new int[] {0, 65_535},
            new int[] {1, 65_534},
            new int[] {2, 65_533},
            new int[] {0x8001, 65_532}),
        new Message.EventSamples(
            27,
            28,
            new long[] {0, 4_294_967_295L},
            new int[] {1, 65_535},
            new int[] {2, 65_534},
            new int[] {3, 65_533},
            new int[] {4, 255}),
        new Message.Recorded(29, 30, 31, new Message.Trouble("crosspoint", "no answer"), 4, 5));
  }

  static Message.EventSamples eventSamples(Random random, int length) {
    long[] deltaMicros = random.longs(length, 0, 1L << 32).toArray();
    if (length > 0) {
      deltaMicros[0] = 0;
    }
    return new Message.EventSamples(
        random.nextInt(1000),
        random.nextLong(1L << 50),
        deltaMicros,
        IntStream.generate(() -> 1 + random.nextInt(65_535)).limit(length).toArray(),
        uint16s(random, length),
        uint16s(random, length),
        IntStream.generate(() -> random.nextInt(256)).limit(length).toArray());
  }

  static Message.CallSamples callSamples(Random random, int length) {
    int[] deltaMicros = uint16s(random, length);
    if (length > 0) {
      deltaMicros[0] = 0;
    }
    return new Message.CallSamples(
        random.nextInt(1000),
        random.nextLong(1L << 50),
        deltaMicros,
        uint16s(random, length),
        uint16s(random, length),
        uint16s(random, length));
  }

  private static int[] uint16s(Random random, int length) {
    return IntStream.generate(() -> random.nextInt(1 << 16)).limit(length).toArray();
  }

  static Message.Samples samples(Random random, int length) {
    return new Message.Samples(
        random.nextInt(1000),
        IntStream.generate(() -> random.nextInt(1024)).limit(length).toArray(),
        IntStream.generate(() -> random.nextInt(1 << 24) - (1 << 23)).limit(length).toArray(),
        random.longs(length, 0, Long.MAX_VALUE).toArray(),
        random.longs(length).toArray(),
        random.ints(length).toArray(),
        IntStream.generate(() -> random.nextInt(256)).limit(length).toArray());
  }

  static Message.Data data(Random random) {
    return switch (random.nextInt(7)) {
      case 0 -> samples(random, random.nextInt(40));
      case 4 -> callSamples(random, random.nextInt(120));
      case 5 -> eventSamples(random, random.nextInt(120));
      case 6 ->
          new Message.Recorded(
              random.nextLong(1L << 62), random.nextInt(99), 5, callSamples(random, 3), 0, 2);
      case 1 -> new Message.Ended(random.nextInt(99), Message.Ended.Outcome.DONE, "");
      case 2 ->
          new Message.InterlockChanged(
              new Message.Interlock(random.nextBoolean(), random.nextBoolean(), 1));
      default -> new Message.Trouble("converter", "reason " + random.nextInt());
    };
  }

  /** The program that takes the most bytes. */
  static Message.Run largestRun() {
    ScanStep step =
        new ScanStep(
            0x1_0000,
            0xAAAA,
            0x5555,
            true,
            Range.HIGH,
            Check.HIGH,
            false,
            Tap.sense(16),
            Tap.monitor(16),
            128,
            Rate.SPS_4000,
            16_000,
            4096);
    ScanStep[] steps = new ScanStep[Message.Run.MAX_STEPS];
    Arrays.fill(steps, step);
    return new Message.Run(Long.MAX_VALUE, Long.MAX_VALUE, List.of(steps));
  }
}
