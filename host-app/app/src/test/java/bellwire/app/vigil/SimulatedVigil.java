package bellwire.app.vigil;

import bellwire.app.bench.BenchTransport;
import bellwire.app.job.JobFile;
import bellwire.app.job.Source;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.link.AgentVigil;
import bellwire.app.link.Transport;
import bellwire.app.survey.BoardModels;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.cable.Occurrence;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.BiConsumer;
import java.util.function.LongSupplier;

/** A whole vigil: the production agent on a simulated bench, the link, the host, the job file. */
final class SimulatedVigil {
  private static final long LOOK_MICROS = 10_000_000;

  /**
   * What came of it.
   *
   * @param truth what was there, in the vigil's time by {@link #offsetMicros}
   * @param offsetMicros from the bench's time to the vigil's
   * @param fromNanos bench time of the first reading
   * @param toNanos bench time of the last
   * @param seconds of the wall clock that it took
   */
  record Outcome(
      String ending,
      List<VigilEvent> events,
      List<Occurrence> truth,
      long offsetMicros,
      long fromNanos,
      long toNanos,
      double seconds) {}

  private SimulatedVigil() {}

  /** A cable of n conductors, tied or open at its far end. */
  static String cable(int n, String plug, long seed) {
    StringBuilder text =
        new StringBuilder(
            "bellwire-bench: 1\nseed: "
                + seed
                + "\ncable:\n  gauge: 18 AWG\n  length: 25 m\n  temperature: 20 C\n"
                + "  conductors:\n");
    for (int i = 1; i <= n; i++) {
      text.append(String.format(Locale.ROOT, "    - {port: P%d, colour: c%d, far: %d}%n", i, i, i));
    }
    return text
        + "far-end: [{from: 0 s, plug: "
        + plug
        + "}]\nsurroundings: {ambient: 20 C, hum: 5 mV 60 Hz}\nintermittent:\n";
  }

  /**
   * Keeps a vigil to its end.
   *
   * @param each told the vigil and its bench's time, now and then
   */
  static Outcome keep(
      Kind kind, String bench, int ports, double hours, Path file, BiConsumer<VigilRun, Long> each)
      throws Exception {
    long began = System.nanoTime();
    Bench read = BenchFile.parse("vigil.yaml", bench);
    VigilOrder order =
        new VigilOrder(
            (1L << 40) + 4711,
            kind,
            ports,
            Map.of(),
            0,
            false,
            0,
            Math.round(hours * 3600e6),
            Double.NaN,
            kind == Kind.TREND ? 10 : 0,
            60,
            "");
    try (SimulatedDevice device = new SimulatedDevice(read)) {
      BenchTransport transport = BenchTransport.of(device);
      VigilRun.Means means = means(transport, transport::nowMicros);
      String ending;
      try (JobFile job = JobFile.open(file);
          VigilRun run = VigilRun.begin(job, order, means)) {
        while (run.step(LOOK_MICROS)) {
          each.accept(run, transport.nowMicros());
        }
        ending = run.ending();
      }
      double seconds = (System.nanoTime() - began) / 1e9;
      return outcome(file, device, ending, seconds);
    }
  }

  /** By the board on a line, without a word to anybody. */
  static VigilRun.Means means(Transport line, LongSupplier unixMicros) {
    return new VigilRun.Means(
        BoardModels.of(BoardDescription.revisionA()),
        "A",
        feed ->
            new AgentVigil(
                line,
                HostEndpoint.Timing.forBaud(921_600),
                feed,
                () -> false,
                line.nowMicros() + 1,
                words -> {}),
        unixMicros,
        () -> line.nowMicros() * 1000,
        words -> {});
  }

  /** Of a cable of five, P1 returning the others' current. */
  static VigilOrder order(long number, long lengthMicros) {
    return order(Kind.CONTINUITY, number, lengthMicros);
  }

  static VigilOrder order(Kind kind, long number, long lengthMicros) {
    return new VigilOrder(
        VigilOrder.LEAST_NUMBER + number,
        kind,
        0x1F,
        Map.of(),
        0,
        false,
        0,
        lengthMicros,
        Double.NaN,
        kind == Kind.TREND ? 10 : 0,
        60,
        "");
  }

  private static Outcome outcome(Path file, SimulatedDevice device, String ending, double seconds)
      throws Exception {
    try (VigilReader reader = VigilReader.open(file, 1)) {
      Source source = reader.sources().get(0);
      long[] span = {Long.MAX_VALUE, Long.MIN_VALUE};
      reader.samples(
          reader.streams().get(0),
          0,
          Long.MAX_VALUE / 4,
          (first, count, value, latches) -> {
            span[0] = Math.min(span[0], first);
            span[1] = Math.max(span[1], first + (count - 1) * 1000L);
          });
      long fromNanos = (span[0] - source.offsetMicros()) * 1000;
      long toNanos = (span[1] - source.offsetMicros()) * 1000;
      return new Outcome(
          ending,
          reader.events(),
          device.copper().truth().occurrences(fromNanos, toNanos),
          source.offsetMicros(),
          fromNanos,
          toNanos,
          seconds);
    }
  }
}
