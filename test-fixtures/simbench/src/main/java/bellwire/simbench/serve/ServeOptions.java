package bellwire.simbench.serve;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How {@link BenchOverSerial} was called.
 *
 * @param speed the bench's seconds in one second
 * @param forSeconds real time after which to end, infinite for never
 * @param record directory of the agent's own record, if it has one
 */
record ServeOptions(
    Path bench, String device, double speed, double forSeconds, Optional<Path> record) {
  static final String USAGE =
      "usage: BenchOverSerial BENCHFILE DEVICE [--speed FACTOR] [--for SECONDS] [--record DIR]";
  private static final double MAX_SPEED = 1000;

  /** A call that cannot be followed; the message is one line. */
  static final class WrongUsage extends Exception {
    private static final long serialVersionUID = 1;

    WrongUsage(String message) {
      super(message);
    }
  }

  static ServeOptions parse(String... arguments) throws WrongUsage {
    List<String> places = new ArrayList<>();
    double speed = 1;
    double seconds = Double.POSITIVE_INFINITY;
    Optional<Path> record = Optional.empty();
    for (int i = 0; i < arguments.length; i++) {
      String argument = arguments[i];
      if (!argument.startsWith("--")) {
        places.add(argument);
        continue;
      }
      String value = ++i < arguments.length ? arguments[i] : "";
      switch (argument) {
        case "--speed" -> speed = number(argument, value, MAX_SPEED);
        case "--for" -> seconds = number(argument, value, Double.MAX_VALUE);
        case "--record" -> record = Optional.of(directory(value));
        default -> throw new WrongUsage(USAGE);
      }
    }
    if (places.size() != 2) {
      throw new WrongUsage(USAGE);
    }
    return new ServeOptions(Path.of(places.get(0)), places.get(1), speed, seconds, record);
  }

  private static Path directory(String value) throws WrongUsage {
    if (value.isEmpty() || value.startsWith("--")) {
      throw new WrongUsage("--record takes a directory; " + USAGE);
    }
    return Path.of(value);
  }

  private static double number(String option, String value, double most) throws WrongUsage {
    try {
      double number = Double.parseDouble(value);
      if (number > 0 && number <= most) {
        return number;
      }
    } catch (NumberFormatException e) {
      // said below
    }
    throw new WrongUsage(option + " takes a number above 0, not '" + value + "'; " + USAGE);
  }
}
