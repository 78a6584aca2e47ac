package bellwire.simbench.control;

import bellwire.link.ByteChannel;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Message;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.SimulatedDevice;
import java.util.ArrayList;
import java.util.List;

/** Words of the call-sense connector as a host gets them from a bench's device. */
final class Words implements HostListener {
  private record Word(double seconds, int bits) {}

  private final List<Word> words = new ArrayList<>();

  /**
   * Watches from the first second on.
   *
   * @param control a bench file's section
   */
  static Words watch(String control, boolean wetting, int loads, double seconds) {
    Words words = new Words();
    String file = "bellwire-bench: 1\nseed: 17\n" + control;
    try (SimulatedDevice device = new SimulatedDevice(RandomBenches.parse(file))) {
      HostEndpoint host =
          new HostEndpoint(
              new ByteChannel() {
                @Override
                public int read(byte[] into) {
                  return device.read(into);
                }

                @Override
                public void write(byte[] bytes, int off, int len) {
                  device.write(bytes, off, len);
                }
              },
              words,
              HostEndpoint.Timing.forBaud(921_600),
              1);
      for (int ms = 0; ms < seconds * 1000; ms++) {
        if (ms == 1000) {
          host.senseCalls(1, wetting, loads, device.micros());
        }
        device.run(1000);
        host.step(device.micros());
      }
    }
    return words;
  }

  /** The share of words between two times in which a lead was above its threshold. */
  double share(int lead, double from, double until) {
    return words.stream()
        .filter(word -> word.seconds() >= from && word.seconds() <= until)
        .mapToInt(word -> word.bits() >>> lead & 1)
        .average()
        .orElseThrow();
  }

  @Override
  public void data(DataFrame frame) {
    if (frame.message() instanceof Message.CallSamples samples) {
      long micros = samples.firstMicros();
      for (int i = 0; i < samples.word().length; i++) {
        micros += samples.deltaMicros()[i];
        words.add(new Word(micros * 1e-6, samples.word()[i]));
      }
    }
  }

  @Override
  public void replied(Message.Reply reply) {
    if (!reply.accepted()) {
      throw new AssertionError(reply.toString());
    }
  }

  @Override
  public void linkUp(Message.Welcome welcome) {}

  @Override
  public void linkLost(String reason) {
    throw new AssertionError(reason);
  }

  @Override
  public void otherProtocol(Message.Welcome welcome) {
    throw new AssertionError(welcome.toString());
  }

  @Override
  public void agentRestarted(long oldBootId, long newBootId) {
    throw new AssertionError("restarted");
  }

  @Override
  public void lostOfEarlier(long boot, long fromSequence, long toSequence) {}

  @Override
  public void lost(long fromSequence, long toSequence) {
    throw new AssertionError("lost");
  }

  @Override
  public void unreadable(long sequence, String reason) {
    throw new AssertionError(reason);
  }

  @Override
  public void alive(Message.Alive answer) {}

  @Override
  public void unanswered(long request, String reason) {
    throw new AssertionError(reason);
  }

  @Override
  public void notUnderstood(int type) {
    throw new AssertionError("notUnderstood " + type);
  }
}
