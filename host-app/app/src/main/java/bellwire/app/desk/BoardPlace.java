package bellwire.app.desk;

import bellwire.app.bench.BenchTransport;
import bellwire.app.serial.SerialDevices;
import bellwire.app.visit.Boards;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;

/** Where the board is, as a line to remember: 'demo', 'serial:/dev/ttyACM0', 'bench:/a/file'. */
final class BoardPlace {
  static final String KEY = "board";

  private static final String DEMO = "demo";
  private static final String SERIAL = "serial:";
  private static final String BENCH = "bench:";

  private BoardPlace() {}

  /** The first serial device there is; not for the event thread. */
  static Boards firstSerial() {
    String device =
        SerialDevices.list().stream()
            .map(SerialDevices.Device::path)
            .findFirst()
            .orElse("/dev/ttyACM0");
    return new Boards.Serial(device, Boards.BAUD);
  }

  static String line(Boards boards) {
    if (boards instanceof Boards.Serial serial) {
      return SERIAL + serial.device();
    }
    if (boards instanceof Boards.Bench bench) {
      return BENCH + bench.file();
    }
    return DEMO;
  }

  /** Empty for what is no such line. */
  static Optional<Boards> of(String line) {
    if (line.equals(DEMO)) {
      return Optional.of(new Boards.Demo(true));
    }
    if (line.startsWith(SERIAL)) {
      return Optional.of(new Boards.Serial(line.substring(SERIAL.length()), Boards.BAUD));
    }
    if (line.startsWith(BENCH)) {
      try {
        Path file = Path.of(line.substring(BENCH.length()));
        return Optional.of(new Boards.Bench(file, BenchTransport.Pace.FAST));
      } catch (InvalidPathException e) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }
}
