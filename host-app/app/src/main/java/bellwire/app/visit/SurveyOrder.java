package bellwire.app.visit;

import bellwire.app.job.Stage;
import bellwire.app.survey.SurveyOptions;
import java.util.Map;

/**
 * A survey to be made.
 *
 * @param cable its row in the job file
 * @param inPlace with the conductors still landed
 * @param colours near-end colour by port, where it is known
 * @param mainsHertz 50 or 60
 */
public record SurveyOrder(
    long cable,
    Stage stage,
    boolean inPlace,
    SurveyOptions options,
    Map<Integer, String> colours,
    int mainsHertz) {
  public SurveyOrder {
    colours = Map.copyOf(colours);
  }
}
