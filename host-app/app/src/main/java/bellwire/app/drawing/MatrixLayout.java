package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.Plate.Align;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Pair;
import bellwire.app.sheet.SurveySheet.Standing;
import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Lays a pair matrix out on a plate. */
final class MatrixLayout {
  private static final double WIDEST_CELL = 84;
  private static final double LEAST_HEIGHT = 26;
  private static final double TALLEST_CELL = 36;
  private static final double SHAPE = 8;
  private static final double LINE = 12;
  private static final int MOST_LINES = 16;

  private final Plate plate;
  private final SurveySheet sheet;
  private final @Nullable String selectedKey;
  private final List<String> ports;
  private final Font font = Lettering.regular(Drawing.TYPE);
  private final Font bold = Lettering.bold(Drawing.TYPE);
  private final double labels;
  private final double cellWidth;
  private final double cellHeight;

  MatrixLayout(Plate plate, SurveySheet sheet, @Nullable String selectedKey) {
    this.plate = plate;
    this.sheet = sheet;
    this.selectedKey = selectedKey;
    ports = sheet.ports();
    double narrow = (plate.width() - labelColumn()) / ports.size();
    labels = narrow < portWidth() ? portWidth() : labelColumn();
    cellWidth = Math.min(WIDEST_CELL, (plate.width() - labels) / ports.size());
    cellHeight = Math.max(LEAST_HEIGHT, Math.min(TALLEST_CELL, 0.6 * cellWidth));
  }

  Plate lay() {
    double y = 0;
    for (int row = 0; row < ports.size(); row++) {
      label(row, y);
      for (int column = 0; column < row; column++) {
        Pair pair = sheet.pair(ports.get(column), ports.get(row));
        if (pair != null) {
          cell(pair, cellBox(column, y));
        }
      }
      String port = ports.get(row);
      plate.text(
          Lettering.width(port, bold) <= cellWidth ? port : port.substring(1),
          bold,
          labels + (row + 0.5) * cellWidth,
          y + cellHeight - 7,
          Align.CENTRE,
          Palette::ink);
      y += cellHeight;
    }
    y = scale(y + 10);
    y = legend(y + 6);
    plate.height(wrong(y + 6) + 4);
    return plate;
  }

  private double portWidth() {
    return Lettering.width("P16", bold) + 6;
  }

  private double labelColumn() {
    double need = 0;
    for (Conductor c : sheet.conductors()) {
      String colour = c.colour() == null ? "" : Lettering.clean(c.colour());
      need = Math.max(need, Lettering.width(colour, font));
    }
    return portWidth() + Math.min(need + 8, 0.14 * plate.width());
  }

  private void label(int row, double y) {
    double base = y + cellHeight / 2 + 3.6;
    plate.text(ports.get(row), bold, 0, base, Align.LEFT, Palette::ink);
    Conductor c = sheet.conductor(ports.get(row));
    if (c != null && c.colour() != null && labels > portWidth()) {
      String colour =
          Lettering.shorten(Lettering.clean(c.colour()), font, labels - portWidth() - 4);
      plate.text(colour, font, portWidth(), base, Align.LEFT, Palette::ink);
    }
  }

  private Rectangle2D cellBox(int column, double y) {
    return new Rectangle2D.Double(
        labels + column * cellWidth + 1, y + 1, cellWidth - 2, cellHeight - 2);
  }

  private void cell(Pair p, Rectangle2D box) {
    boolean found = p.ohms() != null;
    double share = ResistanceScale.share(shownOhms(p));
    Tone ink = found ? ResistanceScale.text(share) : Palette::ink;
    if (found) {
      plate.fill(box, ResistanceScale.ground(share));
    } else {
      plate.hatch(box, Palette::line, 5, 0.7);
      plate.stroke(box, Palette::line, 0.7);
    }
    boolean shape = p.standing() != Standing.SOUND;
    double room = box.getWidth() - (shape ? SHAPE + 6 : 4);
    double middle = box.getCenterX() + (shape ? SHAPE / 2 + 1 : 0);
    boolean told = value(p, room, middle, box.getCenterY(), ink);
    if (shape) {
      boolean alone = !told;
      double x = alone ? box.getCenterX() : box.getMinX() + SHAPE / 2 + 3;
      if (!found) {
        plate.fill(Symbols.square(x, box.getCenterY(), SHAPE / 2 + 3), Palette::paper);
      }
      Symbols.standing(plate, p.standing(), x, box.getCenterY(), SHAPE, ink);
      plate.stroke(box, Palette::ink, 2);
    }
    String key = PairMatrixDrawing.key(p);
    if (key.equals(selectedKey)) {
      Rectangle2D ring =
          new Rectangle2D.Double(
              box.getX() - 1, box.getY() - 1, box.getWidth() + 2, box.getHeight() + 2);
      plate.stroke(ring, Palette::accent, 3);
    }
    plate.spot(key, box, PairMatrixDrawing.words(sheet, p));
  }

  private static double shownOhms(Pair p) {
    Quantity ohms = p.ohms();
    return ohms == null ? p.aboveOhms() : ohms.value();
  }

  /** Numbers and units, the one with most digits first; a bound is rounded down. */
  private static List<List<String>> values(Pair p) {
    if (p.ohms() == null) {
      return List.of(
          Figures.aboveParts(p.aboveOhms(), 3),
          Figures.aboveParts(p.aboveOhms(), 2),
          Figures.aboveParts(p.aboveOhms(), 1));
    }
    return List.of(
        Figures.ohmsParts(p.ohms().value()),
        Figures.ohmsParts(p.ohms().value(), new MathContext(2, RoundingMode.HALF_UP)));
  }

  /** Sets the value in one line or two where it fits; returns whether it did. */
  private boolean value(Pair p, double room, double middle, double y, Tone ink) {
    for (List<String> value : values(p)) {
      if (lines(p, List.of(String.join(" ", value)), room, middle, y, ink)) {
        return true;
      }
    }
    for (List<String> value : values(p)) {
      List<String> two = List.of(value.get(0).replace(" ", ""), value.get(1));
      if (lines(p, two, room, middle, y, ink)) {
        return true;
      }
    }
    return false;
  }

  private boolean lines(
      Pair p, List<String> lines, double room, double middle, double y, Tone ink) {
    double wide = lines.stream().mapToDouble(l -> Lettering.width(l, font)).max().orElse(0);
    boolean framed = p.standing() != Standing.SOUND;
    double pitch = framed ? LINE - 1 : LINE;
    double high = pitch * lines.size();
    if (wide > room || high > cellHeight - (framed ? 4 : 2)) {
      return false;
    }
    if (p.ohms() == null) {
      plate.fill(
          new Rectangle2D.Double(middle - wide / 2 - 1, y - high / 2, wide + 2, high),
          Palette::paper);
    }
    for (int i = 0; i < lines.size(); i++) {
      double base = y + 3.6 + pitch * (i - (lines.size() - 1) / 2.0);
      plate.text(lines.get(i), font, middle, base, Align.CENTRE, ink);
    }
    return true;
  }

  private double scale(double top) {
    double wide = Math.min(plate.width() - 40, 420);
    int steps = 44;
    for (int i = 0; i < steps; i++) {
      double x = wide * i / steps;
      plate.fill(
          new Rectangle2D.Double(20 + x, top, wide / steps + 0.3, 10),
          ResistanceScale.ground((i + 0.5) / steps));
    }
    for (double ohms = 1e-1; ohms < 1e9; ohms *= 100) {
      double x = 20 + wide * ResistanceScale.share(ohms);
      plate.line(x, top + 10, x, top + 14, Palette::line, 1);
      plate.text(Figures.ohms(ohms), font, x, top + 24, Align.CENTRE, Palette::faint);
    }
    return top + 28;
  }

  private double legend(double top) {
    Legend legend = new Legend();
    legend.add(
        "none found: above the limit of detection, which is given",
        (p, x, y) -> {
          p.hatch(Legend.box(x, y), Palette::line, 5, 0.7);
          p.stroke(Legend.box(x, y), Palette::line, 0.7);
        });
    for (Standing s : List.of(Standing.FAULTY, Standing.UNDECIDED)) {
      legend.add(
          s.word() + ", in words below",
          (p, x, y) -> Symbols.standing(p, s, x + Legend.SAMPLE / 2, y, SHAPE));
    }
    return legend.lay(plate, top);
  }

  private double wrong(double top) {
    List<Pair> wrong = sheet.pairs().stream().filter(p -> p.standing() != Standing.SOUND).toList();
    double y = top;
    for (Pair p : wrong.subList(0, Math.min(MOST_LINES, wrong.size()))) {
      Symbols.standing(plate, p.standing(), SHAPE, y + 11, SHAPE);
      for (String line :
          Lettering.wrap(
              Lettering.clean(PairMatrixDrawing.words(sheet, p)), font, plate.width() - 26)) {
        y += 15;
        plate.text(line, font, 22, y, Align.LEFT, Palette::ink);
      }
      y += 2;
    }
    if (wrong.size() > MOST_LINES) {
      y += 15;
      String more = "and " + (wrong.size() - MOST_LINES) + " more pairs that are not sound";
      plate.text(more, bold, 22, y, Align.LEFT, Palette::ink);
    }
    return y;
  }
}
