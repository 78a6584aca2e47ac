package bellwire.app.link;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.bench.BenchTransport;
import bellwire.app.bench.WrappedLine;
import bellwire.app.rehearsal.CallRecord;
import bellwire.app.rehearsal.Rehearsal.Feed;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import org.junit.jupiter.api.Test;

/** A host's program that was killed told nobody to stop. */
class LeftoverTest {
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: 3
      control: {kind: furnace-cooling, leads: [G, W1]}
      """;

  /** The next one was refused: the call-sense connector is being watched, again and again. */
  @Test
  void itsWatchIsNotInTheNextOnesWay() throws Exception {
    try (SimulatedDevice device = new SimulatedDevice(BenchFile.parse("bench.yaml", BENCH))) {
      calls(device, 1_000_001).start(Feed.AC, 2, change -> {});
      device.run(3_000_000); // no word of the first any more
      AgentCalls second = calls(device, 2_000_002);
      second.start(Feed.AC, 2, change -> {});
      long samples = second.sampling().samples();
      for (int i = 0; i < 10; i++) {
        second.await(100_000);
      }
      assertThat(second.sampling().samples()).isGreaterThan(samples);
    }
  }

  /** Its end of the line outlives it. */
  private static AgentCalls calls(SimulatedDevice device, long firstRequest) {
    Transport line =
        new WrappedLine(BenchTransport.of(device)) {
          @Override
          public void close() {}
        };
    return new AgentCalls(
        line,
        HostEndpoint.Timing.forBaud(921_600),
        true,
        CallRecord.NONE,
        () -> false,
        firstRequest,
        words -> {});
  }
}
