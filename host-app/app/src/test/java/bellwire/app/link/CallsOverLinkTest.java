package bellwire.app.link;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.analysis.calls.LevelTracker.Feed;
import bellwire.link.ByteChannel;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Message;
import bellwire.link.Message.CallSamples;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/** A simulated control, the board's chips, the agent, the link and the tracker in one row. */
class CallsOverLinkTest {
  /** The relay closes 1.0 s and its own 4 to 8 ms after it is asked. */
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: 3
      control:
        kind: furnace-cooling
        leads: [G, W1]
        actions: [{at: 2.2 s, mode: heat, set: 1 K}]
      board: {clock-drift: 1000 ppm, tick-jitter: 0.4 ms}
      """;

  private long stopMicros;
  private final List<CallSamples> samples = new ArrayList<>();
  private final List<Message.Ended> ended = new ArrayList<>();
  private final List<Message.Reply> replies = new ArrayList<>();

  private final HostListener listener =
      new HostListener() {
        @Override
        public void linkUp(Message.Welcome welcome) {}

        @Override
        public void linkLost(String reason) {}

        @Override
        public void otherProtocol(Message.Welcome welcome) {}

        @Override
        public void agentRestarted(long oldBootId, long newBootId) {}

        @Override
        public void data(DataFrame frame) {
          if (frame.message() instanceof CallSamples each) {
            samples.add(each);
          } else if (frame.message() instanceof Message.Ended each) {
            ended.add(each);
          }
        }

        @Override
        public void lostOfEarlier(long boot, long fromSequence, long toSequence) {}

        @Override
        public void lost(long fromSequence, long toSequence) {}

        @Override
        public void unreadable(long sequence, String reason) {}

        @Override
        public void replied(Message.Reply reply) {
          replies.add(reply);
        }

        @Override
        public void alive(Message.Alive answer) {}

        @Override
        public void unanswered(long request, String reason) {}

        @Override
        public void notUnderstood(int type) {}
      };

  @Test
  void aCallComesThroughWithItsMomentAndTheSupplysFrequency() throws FileException {
    try (SimulatedDevice device = new SimulatedDevice(BenchFile.parse("test", BENCH))) {
      HostEndpoint host = host(device);
      run(device, host, 1_500);
      host.senseCalls(7, false, 0, device.micros());
      run(device, host, 8_000);
      host.stop(device.micros());
      stopMicros = device.micros();
      run(device, host, 100);
    }
    assertThat(replies).hasSize(2).allMatch(Message.Reply::accepted);
    assertThat(ended)
        .containsExactly(
            new Message.Ended(7, Message.Ended.Outcome.STOPPED, "the host stopped it"));
    List<LevelChange> told = new ArrayList<>();
    CallSamples last = samples.get(samples.size() - 1);
    long lastMicros = last.firstMicros() + Arrays.stream(last.deltaMicros()).sum();
    // 9.5 s by the bench: the device's clock is 9.5 ms ahead. The last step is one within some
    // milliseconds of the stop.
    assertThat(lastMicros - stopMicros).isBetween(9_500L - 3_000, 9_500L + 4_000);
    LevelTracker tracker = new LevelTracker(Feed.AC, 0b11, told::add);
    feed(tracker);
    assertThat(told).extracting(LevelChange::lead).containsExactlyInAnyOrder(0, 1, 1);
    assertThat(tracker.level(0)).isEqualTo(Level.OFF);
    assertThat(tracker.level(1)).isEqualTo(Level.ON);
    // 3.204 to 3.208 s of the bench, by a clock that is 0.1 % fast: 3.2 ms later.
    LevelChange on = told.stream().filter(c -> c.level() == Level.ON).findFirst().orElseThrow();
    assertThat(on.earliestMicros()).isLessThan(3_208_000 + 3_208);
    assertThat(on.latestMicros()).isGreaterThan(3_204_000 + 3_204);
    assertThat(on.latestMicros() - on.earliestMicros()).isLessThan(10_300);
    assertThat(tracker.mainsHertz()).isPresent();
    assertThat(
            samples.stream().flatMapToInt(s -> Arrays.stream(s.lateMicros())).max().orElseThrow())
        .isBetween(300, 4000);
  }

  private void feed(LevelTracker tracker) {
    OptionalLong end = OptionalLong.empty();
    for (CallSamples batch : samples) {
      long micros = batch.firstMicros();
      for (int i = 0; i < batch.word().length; i++) {
        micros += batch.deltaMicros()[i];
        tracker.sample(micros, batch.tookMicros()[i], batch.word()[i]);
        end = OptionalLong.of(micros);
      }
    }
    tracker.finish(end.orElseThrow());
  }

  private HostEndpoint host(SimulatedDevice device) {
    ByteChannel line =
        new ByteChannel() {
          @Override
          public int read(byte[] into) {
            return device.read(into);
          }

          @Override
          public void write(byte[] bytes, int off, int len) {
            device.write(bytes, off, len);
          }
        };
    return new HostEndpoint(line, listener, HostEndpoint.Timing.forBaud(921_600), 1);
  }

  private static void run(SimulatedDevice device, HostEndpoint host, int milliseconds) {
    for (int i = 0; i < milliseconds; i++) {
      device.run(1000);
      host.step(device.micros());
    }
  }
}
