package bellwire.agent.record;

import bellwire.link.DataFrame;
import bellwire.link.DataRing;
import bellwire.link.FrameCodec;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;

/** A log whose disk works in step, the frames put into it, and what it says. */
final class LogBench {
  static final long STEP_MICROS = 100_000;

  final FrameLog log;
  final long boot;
  final List<String> troubles = new ArrayList<>();
  long now;

  LogBench(Path directory, long recordBytes, long boot, int ringFrames) {
    this.boot = boot;
    RecordSettings settings = new RecordSettings(directory, recordBytes);
    log = FrameLog.inStep(settings, boot, new DataRing(ringFrames, 16 << 20));
  }

  void step() {
    now += STEP_MICROS;
    log.step(now);
    for (String words = log.pollTrouble(); words != null; words = log.pollTrouble()) {
      troubles.add(words);
    }
  }

  void run(long micros) {
    for (long end = now + micros; now < end; ) {
      step();
    }
  }

  void add(int frames) {
    for (int i = 0; i < frames; i++) {
      log.add(frame(boot, log.next()));
    }
  }

  /** Adds frames and lets time pass, at so many a second. */
  void stream(int frames, int perSecond) {
    for (int i = 0; i < frames; i++) {
      add(1);
      if (i % Math.max(1, perSecond / 10) == 0) {
        step();
      }
    }
  }

  void send(Message.Data message) {
    log.add(FrameCodec.encode(MessageCodec.encode(new DataFrame(log.next(), now, message))));
  }

  /** The frame, waited for; null where it does not come. */
  byte[] get(long sequence) {
    for (int i = 0; i < 20; i++) {
      if (sequence < log.oldest()) {
        return null;
      }
      byte[] frame = log.get(sequence);
      if (frame != null) {
        return frame;
      }
      step();
    }
    return null;
  }

  /** All that earlier boots left, as a host gets it that acknowledges all or nothing. */
  List<Message.Recorded> earlier(boolean acknowledge) {
    List<Message.Recorded> all = new ArrayList<>();
    for (int idle = 0; idle < 100; idle++) {
      Message.Recorded next = log.pollEarlier();
      if (next != null) {
        idle = 0;
        all.add(next);
        send(next);
      } else {
        step();
      }
      if (acknowledge) {
        log.releaseBelow(log.next());
      }
    }
    return all;
  }

  /** What a boot sends under a number; of it follows all that is in it. */
  static Message.Data message(long boot, long sequence) {
    SplittableRandom random = new SplittableRandom(boot * 31 + sequence);
    int runs = random.nextInt(4) == 0 ? 1 + random.nextInt(64) : 1;
    long[] deltas = random.longs(runs, 0, 1L << 32).toArray();
    deltas[0] = 0;
    int[] ticks = random.ints(runs, 1, 1000).toArray();
    int[] word = random.ints(runs, 0, 2).toArray();
    return new Message.EventSamples(
        boot, sequence * 1_000_000, deltas, ticks, word, word, new int[runs]);
  }

  static byte[] frame(long boot, long sequence) {
    DataFrame frame = new DataFrame(sequence, sequence * 1_000_003, message(boot, sequence));
    return FrameCodec.encode(MessageCodec.encode(frame));
  }

  /** Whether it is what that boot sent under that number. */
  static boolean isRight(Message.Recorded frame) {
    return Arrays.equals(
        FrameCodec.encode(
            MessageCodec.encode(
                new DataFrame(frame.sequence(), frame.deviceMicros(), frame.message()))),
        frame(frame.boot(), frame.sequence()));
  }

  static DataFrame decode(byte[] frame) {
    try {
      return (DataFrame) MessageCodec.decode(FrameCodec.decode(frame, 0, frame.length - 1));
    } catch (LinkFormatException e) {
      throw new AssertionError(e);
    }
  }

  static List<Path> segments(Path directory) throws IOException {
    try (Stream<Path> files = Files.list(directory)) {
      return files
          .filter(file -> file.toString().endsWith(".frames"))
          .sorted(Comparator.naturalOrder())
          .toList();
    }
  }
}
