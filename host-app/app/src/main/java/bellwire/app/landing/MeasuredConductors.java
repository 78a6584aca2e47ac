package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** A cable whose conductors stand in the landing file with what a survey found of each. */
final class MeasuredConductors {
  private static final double LEAST_OHMS = 1e-9;
  private static final int MOST_POSITIONS = 32;

  private final Section cable;
  private final List<Cable.Conductor> conductors = new ArrayList<>();
  private final Map<String, String> ports = new LinkedHashMap<>();
  private final Map<String, Integer> far = new LinkedHashMap<>();
  private final Map<String, String> doubtful = new LinkedHashMap<>();

  /**
   * @param cable whose {@code conductors} are a section
   */
  MeasuredConductors(Section cable) {
    this.cable = cable;
  }

  SurveyedCable cable() throws FileException {
    Section all = cable.required("conductors");
    List<String> names = all.keys();
    if (names.isEmpty() || names.size() > CableReader.MAX_CONDUCTORS) {
      throw all.problemHere(
          "so many conductors are not taken: conductors=" + names.size(),
          "write down 1 to " + CableReader.MAX_CONDUCTORS);
    }
    for (String name : names) {
      if (name.isBlank() || name.equals(CableReader.METAL)) {
        throw all.problemAt(name, "no name for a conductor: '" + name + "'", "use its colour");
      }
      conductors.add(conductor(name, all));
    }
    return new SurveyedCable(
        new Cable(cable.text("name", ""), conductors, CableReader.touching(cable, names)),
        ports,
        far,
        doubtful,
        cable.flag("metal-checked", false));
  }

  private Cable.Conductor conductor(String name, Section all) throws FileException {
    if (!all.isSection(name)) {
      double ohms = all.quantity(name, Dimension.RESISTANCE, LEAST_OHMS, CableReader.MOST_OHMS);
      return new Cable.Conductor(name, name, name, ohms, 0);
    }
    Section s = all.required(name);
    @Nullable String near = s.has("near") ? s.text("near") : null;
    @Nullable String farColour = s.has("far") ? s.text("far") : null;
    Cable.Conductor conductor =
        s.has("broken-at") ? broken(s, name, near, farColour) : whole(s, name, near, farColour);
    if (s.has("port")) {
      ports.put(name, port(s, name));
    }
    if (s.has("position")) {
      far.put(name, s.integer("position", 1, MOST_POSITIONS));
    }
    if (s.has("doubt")) {
      doubtful.put(name, s.text("doubt"));
    }
    s.done();
    return conductor;
  }

  private static Cable.Conductor broken(
      Section s, String name, @Nullable String near, @Nullable String far) throws FileException {
    if (s.has("ohm")) {
      throw s.problemAt(
          "ohm", "a broken conductor has no resistance: " + name, "leave out 'ohm' or 'broken-at'");
    }
    double at = s.number("broken-at", 0, 1);
    return new Cable.Conductor(name, near, far, Double.POSITIVE_INFINITY, 0, at);
  }

  private static Cable.Conductor whole(
      Section s, String name, @Nullable String near, @Nullable String far) throws FileException {
    double most = CableReader.MOST_OHMS;
    return new Cable.Conductor(
        name,
        near,
        far,
        s.quantity("ohm", Dimension.RESISTANCE, LEAST_OHMS, most),
        s.quantity("uncertainty", Dimension.RESISTANCE, 0, most, 0));
  }

  /** P1 to P16, each once. */
  private String port(Section s, String name) throws FileException {
    String port = s.text("port");
    if (!port.matches("P([1-9]|1[0-6])")) {
      throw s.problemAt("port", "no such port: " + port, "use P1 to P16");
    }
    for (Map.Entry<String, String> other : ports.entrySet()) {
      if (other.getValue().equals(port)) {
        throw s.problemAt(
            "port", "port twice: " + port, "it is " + other.getKey() + "'s or " + name + "'s");
      }
    }
    return port;
  }
}
