package bellwire.app.landing;

import bellwire.analysis.loop.Cable;
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
  public SurveyedCable {
    ports = Map.copyOf(ports);
    far = Map.copyOf(far);
    doubtful = Map.copyOf(doubtful);
  }

  /**
   * @throws IOException with a sentence that names the file and ends in a remedy
   */
  public static SurveyedCable read(Path file) throws IOException {
    throw new UnsupportedOperationException("file=" + file);
  }
}
