package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.RouteFaults.RouteFault;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The run to scale from the near end to the far end, each conductor in its colours. What was found
 * stands at its place, with a bracket for ±U (k = 2); what has no place known is listed below, not
 * drawn at one. Spots: {@code conductor:P3} a row, {@code finding:0} a finding in the sheet's
 * order.
 */
public final class RouteDrawing extends PlateDrawing {
  private final SurveySheet sheet;
  private final Map<Integer, String> farColours;
  private final Run run;
  private final double row;
  private final @Nullable String selectedKey;

  /**
   * @param farColours colours at the far end by port, 0 for P1, where they were noted
   * @param selectedKey a spot's key, null for none
   */
  public RouteDrawing(
      SurveySheet sheet, Map<Integer, String> farColours, @Nullable String selectedKey) {
    this(sheet, farColours, Run.UNKNOWN, selectedKey);
  }

  /**
   * @param run what the job knows of the cable; its length is used where the survey has none
   */
  public RouteDrawing(
      SurveySheet sheet, Map<Integer, String> farColours, Run run, @Nullable String selectedKey) {
    this(sheet, farColours, run, Rows.ROOMY, selectedKey);
  }

  /**
   * @param row height of a conductor's row, see {@link Rows}
   */
  public RouteDrawing(
      SurveySheet sheet,
      Map<Integer, String> farColours,
      Run run,
      double row,
      @Nullable String selectedKey) {
    this.row = row;
    this.sheet = sheet;
    this.farColours = Map.copyOf(farColours);
    this.run = run;
    this.selectedKey = selectedKey;
  }

  private @Nullable Quantity length() {
    if (sheet.length() != null) {
      return sheet.length();
    }
    return run.metres() > 0 ? new Quantity(run.metres(), 0, "m") : null;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    if (sheet.conductors().isEmpty()) {
      return Nothing.lay(plate, sheet);
    }
    return new RouteLayout(plate, sheet, farColours, run, length(), row, selectedKey).lay();
  }

  @Override
  public String words() {
    if (sheet.conductors().isEmpty()) {
      return Nothing.words(sheet);
    }
    StringBuilder words = new StringBuilder("The run from the near end to the far end. ");
    for (Conductor c : sheet.conductors()) {
      words.append(conductorWords(sheet, farColours, c)).append(' ');
    }
    List<RouteFault> faults = RouteFaults.of(sheet);
    for (RouteFault f : faults) {
      words.append(faultWords(f, run, length())).append(' ');
    }
    return words.toString().strip();
  }

  static String conductorWords(SurveySheet sheet, Map<Integer, String> farColours, Conductor c) {
    RoutePath path = RoutePath.of(sheet, c);
    String farColour = farColours.get(portIndex(c.port()));
    String far =
        path.far().equals("?") ? "far end unknown" : "far end " + path.far() + ", " + path.word();
    return c.name()
        + ", "
        + c.standing().word()
        + ": "
        + far
        + (farColour == null ? "" : ", " + farColour + " there")
        + (c.ohms() == null ? "" : ", " + Figures.expandedOhms(c.ohms()) + " (k = 2)")
        + ". "
        + sentence(c.reason());
  }

  static String faultWords(RouteFault f, Run run, @Nullable Quantity length) {
    String place =
        f.at() == null
            ? "place not known"
            : Figures.place(f.at(), run, length) + " from the near end (k = 2)";
    return sentence(f.words() + "; " + place);
  }

  static String sentence(String words) {
    String s = words.strip();
    return s.isEmpty() || s.endsWith(".") ? s : s + ".";
  }

  /** 0 for P1; -1 for M. */
  static int portIndex(String port) {
    return port.equals(SurveySheet.METAL) ? -1 : Integer.parseInt(port.substring(1)) - 1;
  }
}
