package bellwire.fuzz;

import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.util.Arrays;

/** Bench files; one in sixty-four of those that are taken is built and run for a moment. */
final class BenchTarget implements Target {
  private static final long RUN_MICROS = 3000;

  private final Scratch scratch = new Scratch("bench");

  @Override
  public void take(byte[] input) throws IOException {
    Bench bench;
    try {
      bench = BenchFile.read(scratch.file("bench.yaml", input));
    } catch (FileException e) {
      Refusals.check(e, input);
      return;
    }
    if (Arrays.hashCode(input) % 64 == 0) {
      try (SimulatedDevice device = new SimulatedDevice(bench)) {
        device.run(RUN_MICROS);
      }
    }
  }
}
