package bellwire.app.cli;

import bellwire.app.bench.BenchTransport;
import picocli.CommandLine.Option;

/** How a board or a bench is spoken to. */
final class LineOptions {
  @Option(
      names = "--baud",
      paramLabel = "N",
      defaultValue = "921600",
      description = "Line rate of the serial device. Default: ${DEFAULT-VALUE}.")
  int baud;

  @Option(
      names = "--pace",
      paramLabel = "PACE",
      defaultValue = "fast",
      description =
          "Simulated bench: 'real' keeps wall-clock time, 'fast' does not wait. Default: ${DEFAULT-VALUE}.")
  BenchTransport.Pace pace = BenchTransport.Pace.FAST;
}
