package bellwire.app.drawing;

import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Pair;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Every two ports as a cell of a triangle: the shade is the resistance between them on a
 * logarithmic scale, hatching says that none was found up to the limit of detection. What is not
 * sound has its shape in the cell and a line in words below. Spots: {@code pair:P1-P5}, lower port
 * first, M last.
 */
public final class PairMatrixDrawing extends PlateDrawing {
  private final SurveySheet sheet;
  private final @Nullable String selectedKey;

  /**
   * @param selectedKey a spot's key, null for none
   */
  public PairMatrixDrawing(SurveySheet sheet, @Nullable String selectedKey) {
    this.sheet = sheet;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    return sheet.pairs().isEmpty()
        ? Nothing.lay(plate, sheet)
        : new MatrixLayout(plate, sheet, selectedKey).lay();
  }

  @Override
  public String words() {
    if (sheet.pairs().isEmpty()) {
      return Nothing.words(sheet);
    }
    List<Pair> wrong = sheet.pairs().stream().filter(p -> p.standing() != Standing.SOUND).toList();
    StringBuilder words = new StringBuilder();
    words
        .append(sheet.pairs().size())
        .append(" pairs, ")
        .append(sheet.pairs().size() - wrong.size())
        .append(" sound.");
    wrong.forEach(p -> words.append(' ').append(words(sheet, p)));
    return words.toString();
  }

  static String key(Pair p) {
    return "pair:" + p.a() + "-" + p.b();
  }

  static String words(SurveySheet sheet, Pair p) {
    return sheet.name(p.a())
        + " and "
        + sheet.name(p.b())
        + ": "
        + (p.ohms() == null
            ? "none found, above "
                + String.join(" ", Figures.aboveParts(p.aboveOhms(), 3)).substring(2)
            : Figures.expandedOhms(p.ohms()) + " (k = 2)")
        + ", "
        + p.standing().word()
        + ": "
        + RouteDrawing.sentence(p.reason());
  }
}
