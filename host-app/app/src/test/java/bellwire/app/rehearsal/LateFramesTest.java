package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.app.bench.BenchTransport;
import bellwire.app.link.AgentCalls;
import bellwire.link.HostEndpoint;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * A line that is cut for seconds brings its frames late, many at once: what is known of time then.
 */
final class LateFramesTest {
  private static final long SEED = 31;

  private interface Look {
    void at(AgentCalls calls, SimulatedDevice device) throws Exception;
  }

  private static void watch(double driftPpm, int looks, Look look) throws Exception {
    String bench =
        "bellwire-bench: 1\nseed: 1\nboard: {clock-drift: "
            + driftPpm
            + " ppm}\n"
            + "control: {kind: heat-only}\n";
    SimulatedDevice device = new SimulatedDevice(BenchFile.parse("bench.yaml", bench));
    try (AgentCalls calls =
        new AgentCalls(
            new CompressorRestTest.LossyLine(
                BenchTransport.of(device), new SplittableRandom(SEED), 0.02),
            HostEndpoint.Timing.forBaud(921_600),
            true,
            CallRecord.NONE,
            () -> false,
            7,
            words -> {})) {
      calls.start(Rehearsal.Feed.AC, 3, change -> {});
      for (int i = 0; i < looks; i++) {
        calls.await(50_000);
        look.at(calls, device);
      }
    }
  }

  @Test
  void noFrameThatComesLateSetsTheDevicesTimeBack() throws Exception {
    for (double drift : new double[] {-100, 0, 100}) {
      int[] behind = {0};
      watch(
          drift,
          30_000,
          (calls, device) -> {
            long trueMicros = (long) (device.micros() * (1 + drift * 1e-6));
            assertTrue(
                calls.notBeyondMicros() >= trueMicros,
                () -> "notBeyond=" + calls.notBeyondMicros() + " true=" + trueMicros);
            behind[0] += trueMicros - calls.nowMicros() > 2_000_000 ? 1 : 0;
          });
      assertTrue(behind[0] > 50, "late frames=" + behind[0] + " seed=" + SEED);
    }
  }

  @Test
  void framesThatComeAtOnceAreTakenOneByOne() throws Exception {
    long[] last = {-1, 0};
    watch(
        0,
        3_000,
        (calls, device) -> {
          last[1] = Math.max(last[1], last[0] < 0 ? 0 : calls.nowMicros() - last[0]);
          last[0] = calls.nowMicros();
        });
    assertEquals(100_000, last[1], 5_000, "the most samples in one wait, seed=" + SEED);
  }
}
