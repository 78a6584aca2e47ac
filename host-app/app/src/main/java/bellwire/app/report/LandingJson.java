package bellwire.app.report;

import bellwire.analysis.attached.Attachment;
import bellwire.analysis.attached.Landing;
import bellwire.analysis.attached.LoadKind;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.uncertainty.Quantity;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** A landing in a survey's JSON: written with it, and read back to be compared. */
public final class LandingJson {
  private LandingJson() {}

  static void put(ObjectNode root, Landing landing) {
    ObjectNode node = root.putObject("landing");
    ArrayNode ports = node.putArray("ports");
    landing.ports().forEach(p -> ports.add(Ports.name(p)));
    ArrayNode joined = node.putArray("joined");
    for (Landing.Joined pair : landing.joined()) {
      ObjectNode one = joined.addObject();
      one.putArray("between").add(Ports.name(pair.a())).add(Ports.name(pair.b()));
      one.put("ohm", pair.ohms()).put("standard-uncertainty", pair.u());
    }
    byPort(node.putObject("farad"), landing.farads());
    Map<Integer, Double> ohms = new LinkedHashMap<>();
    Map<Integer, Double> u = new LinkedHashMap<>();
    landing
        .arms()
        .forEach(
            (port, arm) -> {
              ohms.put(port, arm.value());
              u.put(port, arm.u());
            });
    byPort(node.putObject("arm-ohm"), ohms);
    byPort(node.putObject("arm-standard-uncertainty-ohm"), u);
  }

  private static void byPort(ObjectNode node, Map<Integer, Double> values) {
    values.keySet().stream().sorted().forEach(p -> node.put(Ports.name(p), values.get(p)));
  }

  static void attached(ObjectNode root, List<Attachment> attached) {
    ArrayNode list = root.putArray("attached");
    for (Attachment a : attached) {
      ObjectNode node = list.addObject();
      node.putArray("between").add(Ports.name(a.a())).add(Ports.name(a.b()));
      node.put("kind", a.kind().name().toLowerCase(Locale.ROOT))
          .put("probability", a.probability());
      put(node, "ohm", a.ohms());
      put(node, "henry", a.winding() ? a.value() : Double.NaN);
      put(node, "farad", a.kind() == LoadKind.CAPACITOR ? a.value() : Double.NaN);
      put(node, "volt", a.kind() == LoadKind.DIODE ? a.value() : Double.NaN);
    }
  }

  private static void put(ObjectNode node, String name, double value) {
    if (!Double.isNaN(value)) {
      node.put(name, value);
    }
  }

  /**
   * Reads a file that {@code survey --in-place --json} wrote.
   *
   * @throws IOException with a sentence that ends in a remedy
   */
  public static Landing read(Path file) throws IOException {
    return of(file.toString(), SurveyJson.read(file, "survey --in-place --json", "compare"));
  }

  /**
   * The same of a survey's JSON at hand.
   *
   * @param name to blame
   */
  public static Landing of(String name, String json) throws IOException {
    byte[] text = json.getBytes(StandardCharsets.UTF_8);
    return of(name, SurveyJson.parse(name, text, "survey --in-place --json", "compare"));
  }

  private static Landing of(String file, JsonNode root) throws IOException {
    if (!root.has("landing")) {
      throw new IOException(
          file + ": no survey in place; name a file that survey --in-place --json wrote");
    }
    try {
      return landing(root.path("landing"));
    } catch (IllegalArgumentException e) {
      throw new IOException(file + ": damaged (" + e.getMessage() + "); measure again", e);
    }
  }

  private static Landing landing(JsonNode node) {
    List<Integer> ports = new ArrayList<>();
    node.path("ports").forEach(p -> ports.add(port(p.asText())));
    for (String part : List.of("ports", "joined", "farad", "arm-ohm")) {
      if (!node.path(part).isContainerNode()) {
        throw new IllegalArgumentException("no " + part);
      }
    }
    if (ports.isEmpty()) {
      throw new IllegalArgumentException("ports=[]");
    }
    List<Landing.Joined> joined = new ArrayList<>();
    for (JsonNode pair : node.path("joined")) {
      joined.add(
          new Landing.Joined(
              port(pair.path("between").path(0).asText()),
              port(pair.path("between").path(1).asText()),
              number(pair.path("ohm")),
              number(pair.path("standard-uncertainty"))));
    }
    Map<Integer, Double> u = byPort(node.path("arm-standard-uncertainty-ohm"));
    Map<Integer, Quantity> arms = new LinkedHashMap<>();
    byPort(node.path("arm-ohm"))
        .forEach((port, ohms) -> arms.put(port, Quantity.ohms(ohms, uncertainty(u, port))));
    return new Landing(ports, joined, List.of(), byPort(node.path("farad")), arms);
  }

  private static Map<Integer, Double> byPort(JsonNode node) {
    Map<Integer, Double> values = new LinkedHashMap<>();
    node.fields().forEachRemaining(e -> values.put(port(e.getKey()), number(e.getValue())));
    return values;
  }

  private static double uncertainty(Map<Integer, Double> u, int port) {
    Double of = u.get(port);
    if (of == null || of < 0) {
      throw new IllegalArgumentException("arm-standard-uncertainty-ohm of " + Ports.name(port));
    }
    return of;
  }

  private static double number(JsonNode node) {
    if (!node.isNumber()) {
      throw new IllegalArgumentException("number=" + node);
    }
    return node.asDouble();
  }

  private static int port(String name) {
    for (int port = 0; port < Ports.COUNT; port++) {
      if (Ports.name(port).equals(name)) {
        return port;
      }
    }
    throw new IllegalArgumentException("port=" + name);
  }
}
