package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import bellwire.app.report.SurveyJson;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * A cable as {@code survey --json} measured it.
 *
 * @param cable conductors by port, named by their near colour, or by their port where that is not
 *     known or not unique
 * @param ports port of each conductor, by name
 * @param far what is known of each conductor's far end, by name: its position on the coded plug or
 *     its number as taped; absent where not identified
 * @param doubtful conductors that are not sound, by name, each with the reason
 * @param metalChecked whether bridges to metal were looked for
 */
public record SurveyedCable(
    Cable cable,
    Map<String, String> ports,
    Map<String, Integer> far,
    Map<String, String> doubtful,
    boolean metalChecked) {
  private static final String WRITER = "survey --json";

  public SurveyedCable {
    ports = Map.copyOf(ports);
    far = Map.copyOf(far);
    doubtful = Map.copyOf(doubtful);
  }

  /**
   * @throws IOException with a sentence that names the file and ends in a remedy
   */
  public static SurveyedCable read(Path file) throws IOException {
    return of(file.toString(), name(file), SurveyJson.read(file, WRITER, "plan"));
  }

  /**
   * The same of a survey's JSON at hand.
   *
   * @param name of the cable, which is blamed too
   */
  public static SurveyedCable of(String name, String json) throws IOException {
    byte[] text = json.getBytes(StandardCharsets.UTF_8);
    return of(name, name, SurveyJson.parse(name, text, WRITER, "plan"));
  }

  private static SurveyedCable of(String file, String name, JsonNode root) throws IOException {
    if (root.path("interlock").path("stopped-the-survey").asBoolean(false)) {
      throw new IOException(
          file
              + ": foreign voltage ended this survey, so there is no result; clear the voltage and"
              + " survey again");
    }
    if (root.has("landing")) {
      throw new IOException(
          file
              + ": a survey in place, where what is landed joins conductors, too; lift both ends and"
              + " survey again without --in-place");
    }
    try {
      return new SurveyedConductors(root).cable(name);
    } catch (IllegalArgumentException e) {
      throw new IOException(file + ": damaged (" + e.getMessage() + "); survey again", e);
    }
  }

  /** A cable of which nothing but its conductors' names is known: each of so many ohms. */
  public static SurveyedCable assumed(String name, List<String> conductors, double ohms) {
    List<Cable.Conductor> all =
        conductors.stream().map(c -> new Cable.Conductor(c, c, c, ohms, 0)).toList();
    return new SurveyedCable(new Cable(name, all, List.of()), Map.of(), Map.of(), Map.of(), false);
  }

  /** With a conductor more, or with another one of its name, in whose place it is then. */
  public SurveyedCable with(Cable.Conductor conductor) {
    List<Cable.Conductor> all = new ArrayList<>();
    boolean there = false;
    for (Cable.Conductor c : cable.conductors()) {
      boolean same = c.name().equals(conductor.name());
      there |= same;
      all.add(same ? conductor : c);
    }
    if (!there) {
      all.add(conductor);
    }
    return of(new Cable(cable.name(), all, cable.bridges()));
  }

  /** Without a conductor, and without what it touched. */
  public SurveyedCable without(String conductor) {
    List<Cable.Conductor> all = new ArrayList<>(cable.conductors());
    all.removeIf(c -> c.name().equals(conductor));
    List<Cable.Bridge> bridges = new ArrayList<>(cable.bridges());
    bridges.removeIf(b -> b.a().equals(conductor) || conductor.equals(b.b()));
    return new SurveyedCable(
        new Cable(cable.name(), all, bridges),
        less(ports, conductor),
        less(far, conductor),
        less(doubtful, conductor),
        metalChecked);
  }

  /** With other places where conductors touch. */
  public SurveyedCable touching(List<Cable.Bridge> bridges) {
    return of(new Cable(cable.name(), cable.conductors(), bridges));
  }

  /**
   * With another name for a conductor.
   *
   * @throws IllegalArgumentException where another has that name
   */
  public SurveyedCable renamed(String from, String to) {
    if (!from.equals(to) && cable.conductors().stream().anyMatch(c -> c.name().equals(to))) {
      throw new IllegalArgumentException("name=" + to);
    }
    List<Cable.Conductor> all = new ArrayList<>();
    for (Cable.Conductor c : cable.conductors()) {
      all.add(
          c.name().equals(from)
              ? new Cable.Conductor(
                  to, c.nearColour(), c.farColour(), c.ohms(), c.uOhms(), c.brokenAt())
              : c);
    }
    List<Cable.Bridge> bridges = new ArrayList<>();
    for (Cable.Bridge b : cable.bridges()) {
      String a = b.a().equals(from) ? to : b.a();
      bridges.add(new Cable.Bridge(a, from.equals(b.b()) ? to : b.b(), b.ohms(), b.at()));
    }
    return new SurveyedCable(
        new Cable(cable.name(), all, bridges),
        moved(ports, from, to),
        moved(far, from, to),
        moved(doubtful, from, to),
        metalChecked);
  }

  private SurveyedCable of(Cable other) {
    return new SurveyedCable(other, ports, far, doubtful, metalChecked);
  }

  private static <V> Map<String, V> less(Map<String, V> of, String key) {
    Map<String, V> left = new HashMap<>(of);
    left.remove(key);
    return left;
  }

  private static <V> Map<String, V> moved(Map<String, V> of, String from, String to) {
    Map<String, V> left = new HashMap<>(of);
    V value = left.remove(from);
    if (value != null) {
      left.put(to, value);
    }
    return left;
  }

  private static String name(Path file) {
    Path last = file.getFileName();
    String name = last == null ? "cable" : last.toString();
    return name.endsWith(".json") ? name.substring(0, name.length() - 5) : name;
  }
}
