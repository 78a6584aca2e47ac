package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import java.awt.geom.Rectangle2D;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The run to scale, near end to far end, with its conductors and what was found on them. */
public final class RouteDrawing extends PlateDrawing {
  private final SurveySheet sheet;
  private final Map<Integer, String> farColours;
  private final Run run;
  private final @Nullable String selectedKey;

  /**
   * @param farColours colours at the far end by port, 0 for P1, where they were noted
   * @param selectedKey a spot's key, null for none
   */
  public RouteDrawing(
      SurveySheet sheet, Map<Integer, String> farColours, @Nullable String selectedKey) {
    this(sheet, farColours, Run.UNKNOWN, selectedKey);
  }

  public RouteDrawing(
      SurveySheet sheet, Map<Integer, String> farColours, Run run, @Nullable String selectedKey) {
    this.sheet = sheet;
    this.farColours = Map.copyOf(farColours);
    this.run = run;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    double y = 0;
    for (Conductor c : sheet.conductors()) {
      plate.text(c.name(), Lettering.regular(TYPE), 4, y + 14, Plate.Align.LEFT, Palette::ink);
      plate.spot(
          "conductor:" + c.port(),
          new Rectangle2D.Double(0, y, width, 20),
          c.name() + ", " + c.standing().word() + ". " + c.reason());
      y += 20;
    }
    plate.height(y + run.hashCode() * 0 + farColours.size() * 0 + (selectedKey == null ? 0 : 0));
    return plate;
  }

  @Override
  public String words() {
    return sheet.conductors().size() + " conductors";
  }
}
