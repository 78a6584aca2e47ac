package bellwire.agent;

import bellwire.agent.record.RecordSettings;
import bellwire.yaml.Shown;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/**
 * What the agent has to be told, from one file of lines {@code name = value}; # starts a comment.
 * All names may be left out. device-agent/agent/agent.conf is the commented original.
 *
 * @param serialDevice path of the serial device to the host
 * @param baud its rate in bits per second
 * @param spiProvider Pi4J provider id
 * @param inputProvider Pi4J provider id
 * @param outputProvider Pi4J provider id
 * @param tickMicros time between steps, 500 to 10000
 * @param record where the agent records on its own; empty for nowhere
 */
public record AgentConfiguration(
    String serialDevice,
    int baud,
    String spiProvider,
    String inputProvider,
    String outputProvider,
    int tickMicros,
    Optional<RecordSettings> record) {

  /** The file cannot be used; the message names file, line and remedy. */
  public static final class Unusable extends Exception {
    private static final long serialVersionUID = 1;
    private static final int MOST_MESSAGE = 1000;

    Unusable(String message) {
      super(Shown.line(message, MOST_MESSAGE));
    }
  }

  private static final int MAX_BYTES = 65_536;
  private static final Map<String, String> DEFAULTS =
      Map.of(
          "serial-device", "/dev/ttyGS0",
          "baud", "921600",
          "spi-provider", "linuxfs-spi",
          "input-provider", "gpiod-digital-input",
          "output-provider", "gpiod-digital-output",
          "tick-micros", "1000",
          "record-directory", "/var/lib/bellwire",
          "record-bytes", String.valueOf(RecordSettings.USUAL_BYTES));

  private static final String NOWHERE = "none";

  /** Everything as it comes. */
  public static AgentConfiguration defaults() {
    try {
      return parse("defaults", List.of());
    } catch (Unusable e) {
      throw new IllegalStateException(e);
    }
  }

  public static AgentConfiguration read(Path file) throws Unusable {
    try {
      if (Files.size(file) > MAX_BYTES) {
        throw new Unusable(file + ": too long for a configuration: bytes=" + Files.size(file));
      }
      return parse(file.toString(), Files.readAllLines(file, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new Unusable(file + ": cannot be read; check its path and permissions");
    }
  }

  static AgentConfiguration parse(String file, List<String> lines) throws Unusable {
    Map<String, String> values = new HashMap<>(DEFAULTS);
    Map<String, String> places = new HashMap<>();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      String place = file + ":" + (i + 1);
      if (line.isEmpty() || line.startsWith("#")) {
        continue;
      }
      int equals = line.indexOf('=');
      if (equals < 0) {
        throw new Unusable(place + ": expected name = value, found '" + line + "'");
      }
      String name = line.substring(0, equals).strip();
      String value = line.substring(equals + 1).strip();
      if (!DEFAULTS.containsKey(name)) {
        throw new Unusable(
            place + ": unknown name=" + name + "; known are " + new TreeSet<>(DEFAULTS.keySet()));
      }
      if (value.isEmpty()) {
        throw new Unusable(place + ": " + name + " has no value; leave the line out instead");
      }
      if (places.putIfAbsent(name, place) != null) {
        throw new Unusable(place + ": " + name + " is already set at " + places.get(name));
      }
      values.put(name, value);
    }
    return new AgentConfiguration(
        text(values, "serial-device"),
        (int) number(values, places, file, "baud", 9600, 4_000_000),
        text(values, "spi-provider"),
        text(values, "input-provider"),
        text(values, "output-provider"),
        (int) number(values, places, file, "tick-micros", 500, 10_000),
        record(values, places, file));
  }

  private static Optional<RecordSettings> record(
      Map<String, String> values, Map<String, String> places, String file) throws Unusable {
    long bytes = number(values, places, file, "record-bytes", 1 << 20, 1L << 40);
    String directory = text(values, "record-directory");
    try {
      return directory.equals(NOWHERE)
          ? Optional.empty()
          : Optional.of(new RecordSettings(Path.of(directory), bytes));
    } catch (InvalidPathException e) {
      throw new Unusable(
          places.getOrDefault("record-directory", file)
              + ": record-directory="
              + directory
              + " is no path; write none to record nothing");
    }
  }

  private static String text(Map<String, String> values, String name) {
    return values.getOrDefault(name, "");
  }

  private static long number(
      Map<String, String> values,
      Map<String, String> places,
      String file,
      String name,
      long least,
      long most)
      throws Unusable {
    String value = text(values, name);
    try {
      long number = Long.parseLong(value);
      if (number >= least && number <= most) {
        return number;
      }
    } catch (NumberFormatException e) {
      // told below
    }
    throw new Unusable(
        places.getOrDefault(name, file)
            + ": "
            + name
            + "="
            + value
            + " must be a whole number from "
            + least
            + " to "
            + most);
  }
}
