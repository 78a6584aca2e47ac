package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
import bellwire.app.report.SurveyJson;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Path;
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
    JsonNode root = SurveyJson.read(file, WRITER, "plan");
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
      return new SurveyedConductors(root).cable(name(file));
    } catch (IllegalArgumentException e) {
      throw new IOException(file + ": damaged (" + e.getMessage() + "); survey again", e);
    }
  }

  private static String name(Path file) {
    Path last = file.getFileName();
    String name = last == null ? "cable" : last.toString();
    return name.endsWith(".json") ? name.substring(0, name.length() - 5) : name;
  }
}
