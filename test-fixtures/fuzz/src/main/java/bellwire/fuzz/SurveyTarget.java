package bellwire.fuzz;

import bellwire.app.landing.SurveyedCable;
import bellwire.app.sheet.SurveySheet;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** A survey's result as JSON, as a landing and a drawing read it. */
final class SurveyTarget implements Target {

  @Override
  public void take(byte[] input) {
    String json = new String(input, StandardCharsets.UTF_8);
    try {
      SurveyedCable.of("survey.json", json);
    } catch (IOException e) {
      Refusals.check(e, "survey.json");
    }
    try {
      SurveySheet.of(json);
    } catch (IOException e) {
      Sentences.check(e.getMessage());
    }
  }
}
