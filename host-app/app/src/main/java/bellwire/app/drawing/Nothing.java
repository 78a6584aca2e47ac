package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet;
import java.awt.Font;

/** What a drawing says where a survey has no result. */
final class Nothing {
  private Nothing() {}

  static String words(SurveySheet sheet) {
    if (!sheet.stopped()) {
      return "No conductors were found.";
    }
    SurveySheet.Voltage v = sheet.voltage();
    return "Foreign voltage ended this survey"
        + (v == null
            ? ""
            : String.format(
                java.util.Locale.ROOT,
                ": %.1f V %s at %s, %s",
                v.volts(),
                v.alternating() ? "AC" : "DC",
                Figures.ports(v.between()),
                v.driven() ? "driven" : "induced"))
        + ". There is no result to draw.";
  }

  static Plate lay(Plate plate, SurveySheet sheet) {
    Font font = Lettering.regular(Drawing.TYPE + 2);
    double y = 0;
    for (String line : Lettering.wrap(words(sheet), font, plate.width() - 12)) {
      y += 17;
      plate.text(line, font, 6, y, Plate.Align.LEFT, Palette::ink);
    }
    plate.height(y + 8);
    return plate;
  }
}
