package bellwire.simbench.serve;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.link.ByteChannel;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.io.ByteArrayOutputStream;
import java.lang.reflect.Proxy;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The clock is an argument here: no real time passes. */
class ServedBenchTest {
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: 3
      cable: {gauge: 18 AWG, length: 12 m, conductors: [{port: P1, colour: red, far: 1}]}
      """;

  private final Line line = new Line();

  /** Both ends of a line in memory. */
  private static final class Line implements ByteChannel {
    private final ByteArrayOutputStream toBench = new ByteArrayOutputStream();
    private final ByteArrayOutputStream toHost = new ByteArrayOutputStream();

    private static int take(ByteArrayOutputStream from, byte[] into) {
      byte[] all = from.toByteArray();
      int count = Math.min(all.length, into.length);
      System.arraycopy(all, 0, into, 0, count);
      from.reset();
      from.write(all, count, all.length - count);
      return count;
    }

    @Override
    public int read(byte[] into) {
      return take(toBench, into);
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      toHost.write(bytes, off, len);
    }

    ByteChannel hostEnd() {
      return new ByteChannel() {
        @Override
        public int read(byte[] into) {
          return take(toHost, into);
        }

        @Override
        public void write(byte[] bytes, int off, int len) {
          toBench.write(bytes, off, len);
        }
      };
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {1, 20})
  void timeBeginsWithTheHostsFirstByteAndKeepsItsSpeed(double speed) throws Exception {
    try (SimulatedDevice device = device(speed)) {
      ServedBench served = new ServedBench(device, line, speed);
      step(served, 0, 5_000_000);
      assertThat(device.micros()).isZero();
      line.toBench.write(0);
      step(served, 5_000_000, 7_000_000);
      assertThat(device.micros() / (speed * 2_000_000)).isCloseTo(1, within(0.001));
    }
  }

  @Test
  void aShortPauseIsMadeUpForAndALongOneForgotten() throws Exception {
    try (SimulatedDevice device = device(1)) {
      ServedBench served = new ServedBench(device, line, 1);
      line.toBench.write(0);
      step(served, 0, 1_000_000);
      step(served, 1_900_000, 3_000_000);
      assertThat(device.micros()).isCloseTo(3_000_000, within(2_000L));
      assertThat(served.status()).contains("relays=open").endsWith("behind=0.000 s");
      step(served, 8_000_000, 9_000_000);
      assertThat(device.micros()).isCloseTo(5_000_000, within(2_000L));
      assertThat(served.status()).endsWith("behind=4.000 s");
    }
  }

  /** Silence of 3 s ends a conversation; at 20-fold speed the bench's 3 s are 150 ms. */
  @Test
  void aQuietHostStaysLinkedAtHighSpeed() throws Exception {
    List<String> told = new ArrayList<>();
    HostListener listener =
        (HostListener)
            Proxy.newProxyInstance(
                getClass().getClassLoader(),
                new Class<?>[] {HostListener.class},
                (proxy, method, arguments) -> {
                  told.add(method.getName());
                  return null;
                });
    try (SimulatedDevice device = device(20)) {
      ServedBench served = new ServedBench(device, line, 20);
      HostEndpoint host =
          new HostEndpoint(line.hostEnd(), listener, HostEndpoint.Timing.forBaud(921_600), 1);
      for (long now = 0; now < 10_000_000; now += 1000) {
        host.step(now);
        served.step(now);
      }
      assertThat(host.isUp()).isTrue();
      assertThat(told).contains("linkUp").doesNotContain("linkLost", "lost", "agentRestarted");
      assertThat(host.counts().duplicates()).isZero();
    }
  }

  @Test
  void callsAreReadOrRefusedInOneLine() throws Exception {
    assertThat(ServeOptions.parse("a.yaml", "/dev/x", "--speed", "20"))
        .isEqualTo(
            new ServeOptions(
                Path.of("a.yaml"), "/dev/x", 20, Double.POSITIVE_INFINITY, Optional.empty()));
    assertThat(ServeOptions.parse("a.yaml", "/dev/x", "--record", "kept").record())
        .contains(Path.of("kept"));
    for (String call :
        List.of(
            "a.yaml",
            "a.yaml x --speed",
            "a.yaml x --speed 0",
            "a x --no 1",
            "a x --record",
            "a x --record --speed 2")) {
      assertThatThrownBy(() -> ServeOptions.parse(call.split(" ")))
          .as(call)
          .isInstanceOf(ServeOptions.WrongUsage.class)
          .hasMessageContaining("usage: ")
          .hasMessageNotContaining("\n");
    }
  }

  private static SimulatedDevice device(double speed) throws FileException {
    return new SimulatedDevice(BenchFile.parse("served.yaml", BENCH), 3, speed);
  }

  private static void step(ServedBench served, long fromMicros, long untilMicros) {
    for (long now = fromMicros; now <= untilMicros; now += 1000) {
      served.step(now);
    }
  }
}
