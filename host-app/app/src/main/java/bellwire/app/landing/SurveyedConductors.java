package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** The conductors and the bridges in a survey's JSON. */
final class SurveyedConductors {
  private static final String METAL = "M";
  private static final int MOST_CONDUCTORS = 16;

  /** Where nothing of the cable was measured: 25 m of 18 AWG, about 21 ohm/km. */
  private static final double ASSUMED_OHMS = 0.5;

  /** Where nothing tells where a conductor is broken. */
  private static final double UNKNOWN_BREAK = 0.5;

  /** Less than any touch that is found; a bridge in the circuit needs some resistance. */
  private static final double LEAST_OHMS = 1e-3;

  private static final Set<String> BREAKS = Set.of("open", "untied", "broken-beside");
  private static final Set<String> NOT_TOLD = Set.of("unidentified", "ambiguous", "hidden");

  private static final Pattern PORT = Pattern.compile("\\bP\\d{1,2}\\b");

  private final JsonNode root;
  private final Map<String, String> nameOfPort = new LinkedHashMap<>();
  private final Map<String, Double> ohmsOfPort = new HashMap<>();

  /**
   * @param root of a survey with a result
   */
  SurveyedConductors(JsonNode root) {
    this.root = root;
  }

  /**
   * @throws IllegalArgumentException ending in name=value, where a field is missing or wrong
   */
  SurveyedCable cable(String title) {
    JsonNode list = list("conductors");
    if (list.isEmpty() || list.size() > MOST_CONDUCTORS) {
      throw new IllegalArgumentException("conductors=" + list.size());
    }
    names(list);
    List<Cable.Conductor> conductors = new ArrayList<>();
    Map<String, String> ports = new LinkedHashMap<>();
    Map<String, Integer> far = new LinkedHashMap<>();
    Map<String, String> doubtful = new LinkedHashMap<>();
    for (JsonNode node : list) {
      String port = node.path("port").asText();
      String name = name(port);
      Cable.Conductor conductor = conductor(node, port, name);
      conductors.add(conductor);
      ohmsOfPort.put(port, conductor.ohms());
      ports.put(name, port);
      if (node.path("far-position").isInt()) {
        far.put(name, node.path("far-position").asInt());
      }
      String doubt = doubt(node, port, conductor);
      if (doubt != null) {
        doubtful.put(name, doubt);
      }
    }
    return new SurveyedCable(
        new Cable(title, conductors, bridges()),
        ports,
        far,
        doubtful,
        root.path("metal-checked").asBoolean(false));
  }

  private JsonNode list(String field) {
    JsonNode list = root.path(field);
    if (!list.isArray()) {
      throw new IllegalArgumentException("no " + field);
    }
    return list;
  }

  private void names(JsonNode conductors) {
    Map<String, Integer> uses = new HashMap<>();
    for (JsonNode c : conductors) {
      String colour = text(c.path("near-colour"));
      uses.merge(colour == null ? "" : colour, 1, Integer::sum);
    }
    for (JsonNode c : conductors) {
      String port = c.path("port").asText();
      String colour = text(c.path("near-colour"));
      boolean unique = colour != null && uses.getOrDefault(colour, 0) == 1;
      if (!port.matches("P([1-9]|1[0-6])") || nameOfPort.containsKey(port)) {
        throw new IllegalArgumentException("port=" + port);
      }
      nameOfPort.put(port, unique && colour != null ? colour : port);
    }
    if (new HashSet<>(nameOfPort.values()).size() < nameOfPort.size()) {
      nameOfPort.replaceAll((port, name) -> port);
    }
  }

  private String name(String port) {
    String name = nameOfPort.get(port);
    if (name == null) {
      throw new IllegalArgumentException("port=" + port);
    }
    return name;
  }

  private Cable.Conductor conductor(JsonNode node, String port, String name) {
    JsonNode resistance = node.path("resistance");
    double ohms;
    double u;
    if (broken(node, port)) {
      JsonNode at = node.path("open-at");
      return new Cable.Conductor(
          name,
          text(node.path("near-colour")),
          null,
          Double.POSITIVE_INFINITY,
          0,
          at.isObject() ? fraction(at) : UNKNOWN_BREAK);
    } else if (resistance.isObject()) {
      ohms = number(resistance, "value");
      u = number(resistance, "standard-uncertainty");
    } else {
      ohms = likely(port);
      u = 0;
    }
    if (!(ohms > 0) || !(u >= 0)) {
      throw new IllegalArgumentException("port=" + port + " ohm=" + ohms);
    }
    return new Cable.Conductor(name, text(node.path("near-colour")), null, ohms, u);
  }

  /** Faulty, without a resistance from end to end, and named where a break was found. */
  private boolean broken(JsonNode node, String port) {
    boolean through = node.path("resistance").isObject();
    boolean told = node.path("open-at").isObject() || named(BREAKS, port);
    return !through && told && node.path("standing").asText().equals("faulty");
  }

  private boolean named(Set<String> kinds, String port) {
    for (JsonNode finding : root.path("findings")) {
      if (kinds.contains(finding.path("kind").asText())) {
        for (JsonNode p : finding.path("ports")) {
          if (p.asText().equals(port)) {
            return true;
          }
        }
      }
    }
    return false;
  }

  /** Half of a tie's loop, which is all that ties tell; else the mean of the others. */
  private double likely(String port) {
    for (JsonNode round : root.path("ties").path("rounds")) {
      for (JsonNode loop : round.path("loops")) {
        for (JsonNode end : loop.path("between")) {
          if (end.asText().equals(port)) {
            return number(loop.path("resistance"), "value") / 2;
          }
        }
      }
    }
    double sum = 0;
    int count = 0;
    for (JsonNode c : root.path("conductors")) {
      if (c.path("resistance").isObject()) {
        sum += number(c.path("resistance"), "value");
        count++;
      }
    }
    return count == 0 ? ASSUMED_OHMS : sum / count;
  }

  private @Nullable String doubt(JsonNode node, String port, Cable.Conductor conductor) {
    if (conductor.broken()) {
      return null;
    }
    if (!node.path("standing").asText().equals("sound")) {
      String reason = node.path("reason").asText("").strip();
      String words = reason.endsWith(".") ? reason.substring(0, reason.length() - 1) : reason;
      return "surveyed as " + node.path("standing").asText() + " (" + byName(words) + ")";
    }
    return named(NOT_TOLD, port) ? "the survey could not tell which it is at the far end" : null;
  }

  /** Ports by the names that a plan has for their conductors. */
  private String byName(String words) {
    return PORT.matcher(words)
        .replaceAll(m -> Matcher.quoteReplacement(nameOfPort.getOrDefault(m.group(), m.group())));
  }

  /** Every pair between which something was found that is not as it should be. */
  private List<Cable.Bridge> bridges() {
    List<Cable.Bridge> bridges = new ArrayList<>();
    for (JsonNode pair : list("pairs")) {
      if (pair.path("resistance").isObject() && !pair.path("standing").asText().equals("sound")) {
        String a = pair.path("between").path(0).asText();
        String b = pair.path("between").path(1).asText();
        boolean metalFirst = a.equals(METAL);
        bridges.add(bridge(pair, metalFirst ? b : a, metalFirst ? a : b));
      }
    }
    return bridges;
  }

  private Cable.Bridge bridge(JsonNode pair, String a, String b) {
    String name = name(a);
    String other = b.equals(METAL) ? null : name(b);
    JsonNode fault = explained(a, b);
    double at = place(fault, a, b);
    double ohms = number(pair.path("resistance"), "value");
    if (fault != null && fault.path("resistance").isObject()) {
      ohms = number(fault.path("resistance"), "value");
    } else {
      ohms -= at * (copper(a) + copper(b));
    }
    return new Cable.Bridge(name, other, Math.max(ohms, LEAST_OHMS), at);
  }

  /** Of a conductor to its end, as far as known; of metal none. */
  private double copper(String port) {
    double ohms = ohmsOfPort.getOrDefault(port, 0.0);
    return Double.isInfinite(ohms) ? 0 : ohms;
  }

  /** The bridge between two in the likeliest explanation. */
  private @Nullable JsonNode explained(String a, String b) {
    for (JsonNode fault : root.path("explanations").path(0).path("faults")) {
      Set<String> ends = new HashSet<>();
      fault.path("ports").forEach(p -> ends.add(p.asText()));
      fault.path("to").forEach(p -> ends.add(p.asText()));
      if (fault.path("kind").asText().equals("bridge") && ends.equals(Set.of(a, b))) {
        return fault;
      }
    }
    return null;
  }

  /** Fraction of the run; the near end where nothing tells, for that is where it was seen from. */
  private double place(@Nullable JsonNode fault, String a, String b) {
    if (fault != null && fault.path("at").isObject()) {
      return fraction(fault.path("at"));
    }
    for (JsonNode finding : root.path("findings")) {
      Set<String> ends = new HashSet<>();
      finding.path("ports").forEach(p -> ends.add(p.asText()));
      if (ends.containsAll(Set.of(a, b))) {
        if (finding.path("at").isObject()) {
          return fraction(finding.path("at"));
        }
        if (finding.path("kind").asText().equals("touching-at-the-far-end")) {
          return 1;
        }
      }
    }
    return 0;
  }

  private static double fraction(JsonNode quantity) {
    return Math.min(1, Math.max(0, number(quantity, "value")));
  }

  private static double number(JsonNode node, String field) {
    JsonNode value = node.path(field);
    if (!value.isNumber() || !Double.isFinite(value.asDouble())) {
      throw new IllegalArgumentException(field + "=" + value);
    }
    return value.asDouble();
  }

  private static @Nullable String text(JsonNode node) {
    return node.isTextual() && !node.asText().isBlank() ? node.asText().strip() : null;
  }
}
