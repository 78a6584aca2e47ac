package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.agent.Agent;
import bellwire.agent.HostLink;
import bellwire.board.BoardDescription;
import bellwire.link.Check;
import bellwire.link.Message;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.VirtualClock;
import bellwire.simbench.chip.BoardChips;
import bellwire.simbench.chip.ConverterErrors;
import bellwire.simbench.file.Bench;
import bellwire.simbench.pi4j.SimulatedPi;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The production agent on simulated chips on simulated copper. */
class AgentOnCopperTest {

  @Test
  void theBoardPassesItsOwnCheckWhateverWasDrawn() {
    for (long seed = 1; seed <= 25; seed++) {
      try (AgentRig bench = new AgentRig(RandomBenches.draw(seed))) {
        bench.armed();
        assertThat(bench.selfCheck).as("seed=%d", seed).isEmpty();
      }
    }
  }

  @Test
  void aLoopIsMeasuredThroughChipsAndRegisters() {
    String more = "surroundings: {hum: 5 mV 60 Hz}\n";
    String tied =
        RandomBenches.text(31, 6, more)
            .replaceFirst("far-end: .*\n", "far-end: [{from: 0 s, plug: tie}]\n");
    try (AgentRig bench = new AgentRig(RandomBenches.parse(tied))) {
      bench.armed();
      bench.requests.add(
          new Message.Run(
              2,
              77,
              List.of(
                  loop(true, Tap.sense(0), Tap.sense(1)),
                  loop(false, Tap.sense(0), Tap.sense(1)),
                  loop(true, Tap.REFERENCE_HIGH, Tap.REFERENCE_LOW),
                  loop(false, Tap.REFERENCE_HIGH, Tap.REFERENCE_LOW))));
      bench.run(1500);
      double[] mean = bench.meanCodes(4);
      double ohms = 100 * (mean[0] - mean[1]) / (mean[2] - mean[3]);
      Truth truth = bench.copper.truth();
      double contacts = 0;
      for (int port = 0; port < 2; port++) {
        contacts += truth.nearContactOhms(port, 0) + truth.farContactOhms(port, 0);
      }
      // The reference may be 0.01 % off, and the dividers take 1e-4 of the current past it.
      double expected = truth.loopOhms(0, 1) + contacts;
      assertThat(ohms).isCloseTo(expected, within(1e-3 + 3e-4 * expected));
    }
  }

  @Test
  void theAgentNeverReArmsWhileAForeignVoltageLasts() {
    String foreign =
        "surroundings: {foreign: [{between: [P1, P3], volts: 26, hz: 60, ohm: 2, from: 900 ms}]}\n";
    try (AgentRig bench = new AgentRig(RandomBenches.of(4, 5, foreign))) {
      bench.armed();
      bench.requests.add(new Message.Run(2, 77, List.of(loop(true, Tap.sense(0), Tap.sense(1)))));
      bench.run(300);
      assertThat(bench.copper.tripped(bench.clock.nanos())).isTrue();
      for (int i = 0; i < 50; i++) {
        bench.requests.add(new Message.Arm(10 + i));
        bench.run(7);
        assertThat(bench.copper.connected(bench.clock.nanos())).isFalse();
        assertThat(bench.copper.excited(bench.clock.nanos())).isFalse();
      }
      assertThat(bench.copper.tripped(bench.clock.nanos())).isTrue();
    }
  }

  private static ScanStep loop(boolean excite, Tap plus, Tap minus) {
    // Only M: the others hang on the tie plug and would take the current.
    int guard = 1 << ScanStep.METAL;
    return new ScanStep(
        1, 2, guard, excite, Range.LOW, Check.NONE, false, plus, minus, 1, Rate.SPS_20, 4000, 2);
  }

  private static final class AgentRig implements AutoCloseable {
    final VirtualClock clock = new VirtualClock();
    final Deque<Message.FromHost> requests = new ArrayDeque<>();
    final List<Message.Data> data = new ArrayList<>();
    final SimulatedCopper copper;
    String selfCheck = "unset";
    private final SimulatedPi pi;
    private final Agent agent;

    AgentRig(Bench bench) {
      BoardDescription board = BoardDescription.revisionA();
      copper = new SimulatedCopper(bench);
      BoardChips chips =
          new BoardChips(board, copper, clock, ConverterErrors.none(), new SplittableRandom(1));
      pi = SimulatedPi.open(chips, board);
      HostLink link =
          new HostLink() {
            @Override
            public void step(long nowMicros) {}

            @Override
            public Message.FromHost poll() {
              return requests.poll();
            }

            @Override
            public void send(Message.Data message, long nowMicros) {
              data.add(message);
            }

            @Override
            public void reply(Message.FromAgent answer) {}

            @Override
            public boolean hostPresent() {
              return true;
            }

            @Override
            public void recording(boolean on) {}

            @Override
            public long diskBytes() {
              return 0;
            }

            @Override
            public void selfCheck(String state) {
              selfCheck = state;
            }
          };
      agent = new Agent(pi.sensingBoard(), board, link, 1000, clock::micros);
    }

    void run(int milliseconds) {
      for (int i = 0; i < milliseconds; i++) {
        agent.step(clock.micros(), clock.micros());
        clock.advanceTo(clock.nanos() + 1_000_000);
      }
    }

    void armed() {
      run(100);
      requests.add(new Message.Arm(1));
      run(700);
    }

    double[] meanCodes(int steps) {
      double[] sum = new double[steps];
      int[] count = new int[steps];
      for (Message.Data message : data) {
        if (message instanceof Message.Samples samples) {
          for (int i = 0; i < samples.code().length; i++) {
            assertThat(samples.flags()[i]).isZero();
            sum[samples.step()[i]] += samples.code()[i];
            count[samples.step()[i]]++;
          }
        }
      }
      for (int i = 0; i < steps; i++) {
        assertThat(count[i]).isEqualTo(2);
        sum[i] /= count[i];
      }
      return sum;
    }

    @Override
    public void close() {
      pi.close();
    }
  }
}
