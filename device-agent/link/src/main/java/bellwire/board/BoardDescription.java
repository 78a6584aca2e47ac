package bellwire.board;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The sensing board as data: pins, bit maps, component values. Read from {@code
 * hardware-notes/sensing-board-a.yaml}, the one place for them; agent, simulated bench and analysis
 * all take them from here.
 */
public final class BoardDescription {

  /**
   * A component's nominal value and the half-width of its rectangular tolerance, in the unit its
   * name ends in.
   */
  public record Value(double nominal, double tolerance) {}

  /** An SPI device on the Pi. */
  public record SpiDevice(int bus, int chipSelect, int mode, int hertz) {}

  private static final BoardDescription REVISION_A = load("sensing-board-a.yaml");

  private final JsonNode root;
  private final Map<String, Value> values = new LinkedHashMap<>();

  private BoardDescription(JsonNode root) {
    this.root = root;
    root.path("values")
        .properties()
        .forEach(
            e ->
                values.put(
                    e.getKey(),
                    new Value(
                        e.getValue().path("nominal").asDouble(),
                        e.getValue().path("tolerance").asDouble())));
  }

  public static BoardDescription revisionA() {
    return REVISION_A;
  }

  public String revision() {
    return root.path("revision").asText();
  }

  /** A component value by its name under {@code values}. */
  public Value value(String name) {
    Value value = values.get(name);
    if (value == null) {
      throw new IllegalArgumentException("board value=" + name);
    }
    return value;
  }

  public double nominal(String name) {
    return value(name).nominal();
  }

  public double limit(String name) {
    return required("limits", name).asDouble();
  }

  /** A GPIO line of the Pi, BCM number. */
  public int line(String name) {
    return required("pi", name).asInt();
  }

  public SpiDevice spi(String name) {
    JsonNode device = required("pi", name);
    return new SpiDevice(
        device.path("bus").asInt(),
        device.path("chip-select").asInt(),
        device.path("mode").asInt(),
        device.path("hertz").asInt());
  }

  /** A bit of the crosspoint chain that belongs to no port. */
  public int chainBit(String name) {
    return required("chain", name).asInt();
  }

  /**
   * The chain bit that joins a port (0 to 16) to a bus: {@code drive}, {@code return} or {@code
   * guard}.
   */
  public int chainBit(int port, String bus) {
    JsonNode column = required("chain", "columns").path(bus);
    if (port < 0 || port > 16 || column.isMissingNode()) {
      throw new IllegalArgumentException("port=" + port + " bus=" + bus);
    }
    return 3 * port + column.asInt();
  }

  public int expander(String name) {
    return required("expanders", name).asInt();
  }

  public int converterInput(String name) {
    return required("converter", name).asInt();
  }

  private JsonNode required(String section, String name) {
    JsonNode node = root.path(section).path(name);
    if (node.isMissingNode()) {
      throw new IllegalArgumentException("board " + section + "=" + name);
    }
    return node;
  }

  private static BoardDescription load(String resource) {
    try (InputStream in = BoardDescription.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("missing resource " + resource);
      }
      return new BoardDescription(new YAMLMapper().readTree(in));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
