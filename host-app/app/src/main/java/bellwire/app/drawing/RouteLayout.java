package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.Plate.Align;
import bellwire.app.drawing.RouteFaults.RouteFault;
import bellwire.app.drawing.RoutePath.Certainty;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import java.awt.Font;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Lays a route out on a plate: flags, rows, axis, what has no place, legend. */
final class RouteLayout {
  private static final double PAD = 6;
  private static final double TAB = 8;

  private final Plate plate;
  private final SurveySheet sheet;
  private final Map<Integer, String> farColours;
  private final Run run;
  private final @Nullable Quantity length;
  private final double row;
  private final @Nullable String selectedKey;
  private final List<RouteFault> faults;
  private final Font font = Lettering.regular(Drawing.TYPE);
  private final Font bold = Lettering.bold(Drawing.TYPE);
  private final double left;
  private final double right;
  private final Map<String, Double> rows = new HashMap<>();
  private double rowsEnd;

  RouteLayout(
      Plate plate,
      SurveySheet sheet,
      Map<Integer, String> farColours,
      Run run,
      @Nullable Quantity length,
      double row,
      @Nullable String selectedKey) {
    this.plate = plate;
    this.row = row;
    this.sheet = sheet;
    this.farColours = farColours;
    this.run = run;
    this.length = length;
    this.selectedKey = selectedKey;
    faults = RouteFaults.of(sheet);
    double width = plate.width();
    left = nameColumn(width) + TAB;
    right = width - farColumn(width) - TAB;
  }

  Plate lay() {
    RouteFlags flags = new RouteFlags(plate, run, length, left, right);
    double y = flags.arrange(faults, 22) + 8;
    ends();
    for (Conductor c : sheet.conductors()) {
      rows.put(c.port(), y + row / 2);
      y += row;
    }
    boolean metal =
        faults.stream().anyMatch(f -> f.at() != null && f.ports().contains(SurveySheet.METAL));
    if (metal) {
      rows.put(SurveySheet.METAL, y + row / 2);
      y += row;
    }
    rowsEnd = y;
    selection();
    flags.leaders(rows);
    sheet.conductors().forEach(this::conductor);
    if (metal) {
      metal();
    }
    RouteMarks marks = new RouteMarks(plate, rows, left, right, selectedKey);
    faults.forEach(marks::draw);
    flags.draw(selectedKey);
    y = new RouteAxis(plate, run, length, left, right).lay(rowsEnd + 4);
    y = unplaced(y + 6);
    plate.height(legend(y + 8) + 4);
    return plate;
  }

  /** As wide as its names need, within bounds. */
  private double nameColumn(double width) {
    double need = 0;
    for (Conductor c : sheet.conductors()) {
      String colour = c.colour() == null ? "" : Lettering.clean(c.colour());
      need = Math.max(need, 4 + portWidth() + Lettering.width(colour, font));
    }
    return Math.max(56, Math.min(need, Math.min(0.26 * width, 240)));
  }

  /** Of the widest port's name, so that colours stand in line. */
  private double portWidth() {
    return Lettering.width("P16", bold) + 6;
  }

  private double farColumn(double width) {
    double need = 0;
    for (Conductor c : sheet.conductors()) {
      need = Math.max(need, farText(c).length() == 0 ? 0 : Lettering.width(farText(c), font));
    }
    return Math.max(56, Math.min(need + 4, Math.min(0.26 * width, 240)));
  }

  private String farText(Conductor c) {
    RoutePath path = RoutePath.of(sheet, c);
    String colour = farColours.get(RouteDrawing.portIndex(c.port()));
    return path.far()
        + " "
        + path.word()
        + (colour == null ? "" : " \u00b7 " + Lettering.clean(colour));
  }

  private void ends() {
    plate.text("near end", bold, 0, 12, Align.LEFT, Palette::ink);
    plate.text("far end, position", bold, plate.width(), 12, Align.RIGHT, Palette::ink);
  }

  private double at(String port) {
    return rows.getOrDefault(port, 0.0);
  }

  private void selection() {
    for (Conductor c : sheet.conductors()) {
      if (("conductor:" + c.port()).equals(selectedKey)) {
        plate.fill(
            new Rectangle2D.Double(0, at(c.port()) - row / 2, plate.width(), row),
            Palette::selected);
      }
    }
  }

  private void conductor(Conductor c) {
    double y = at(c.port());
    double base = y + 3.6;
    plate.text(c.port(), bold, 0, base, Align.LEFT, Palette::ink);
    if (c.colour() != null) {
      double room = left - TAB - portWidth();
      String colour = Lettering.shorten(Lettering.clean(c.colour()), font, room);
      plate.text(colour, font, portWidth(), base, Align.LEFT, Palette::ink);
    }
    double room = plate.width() - right - TAB;
    String far = Lettering.shorten(farText(c), font, room);
    plate.text(far, font, right + TAB, base, Align.LEFT, Palette::ink);
    line(c, y);
    plate.spot(
        "conductor:" + c.port(),
        new Rectangle2D.Double(0, y - row / 2, plate.width(), row),
        RouteDrawing.conductorWords(sheet, farColours, c));
  }

  private void line(Conductor c, double y) {
    RoutePath path = RoutePath.of(sheet, c);
    ConductorColour near = ConductorColour.of(c.colour());
    String farName = farColours.get(RouteDrawing.portIndex(c.port()));
    ConductorColour far = farName == null ? near : ConductorColour.of(farName);
    double end = right;
    if (!Double.isNaN(path.brokenAt())) {
      end = x(path.brokenAt());
      // What lies beyond a break was not seen from here.
      stretch(end, right, y, far, Certainty.UNKNOWN);
      stretch(left, end, y, near, Certainty.CERTAIN);
    } else if (far.equals(near)) {
      stretch(left, right, y, near, path.certainty());
    } else {
      double third = (right - left) / 3;
      plate.line(left + third, y, right - third, y, Palette::line, 1.2, 2, 3);
      stretch(left, left + third, y, near, path.certainty());
      stretch(right - third, right, y, far, path.certainty());
    }
  }

  private void stretch(double x1, double x2, double y, ConductorColour colour, Certainty how) {
    if (x2 - x1 > 0.5) {
      Insulation.draw(plate, new Line2D.Double(x1, y, x2, y), colour, how.dash());
    }
  }

  private void metal() {
    double y = at(SurveySheet.METAL);
    plate.text(SurveySheet.METAL, bold, 0, y + 3.6, Align.LEFT, Palette::ink);
    plate.text(
        Lettering.shorten("bare metal", font, left - TAB - portWidth()),
        font,
        portWidth(),
        y + 3.6,
        Align.LEFT,
        Palette::ink);
    Rectangle2D bar = new Rectangle2D.Double(left, y - 4, right - left, 8);
    plate.hatch(bar, Palette::line, 5, 1);
    plate.stroke(bar, Palette::line, 1);
  }

  private double x(double fraction) {
    return left + Math.max(0, Math.min(1, fraction)) * (right - left);
  }

  /** Faults without a place, in words, so that none is drawn where it may not be. */
  private double unplaced(double top) {
    List<RouteFault> none = faults.stream().filter(f -> f.at() == null).toList();
    if (none.isEmpty()) {
      return top;
    }
    double y = top + 14;
    plate.text("Place not known", bold, 0, y, Align.LEFT, Palette::ink);
    for (RouteFault f : none) {
      double begin = y + 4;
      List<String> lines = Lettering.wrap(Lettering.clean(f.words()), font, plate.width() - 44);
      int first = plate.texts().size();
      for (String line : lines) {
        y += 16;
        plate.text(line, font, 40, y, Align.LEFT, Palette::ink);
      }
      Rectangle2D area = new Rectangle2D.Double(0, begin, plate.width(), y + 4 - begin);
      if (f.key().equals(selectedKey) && first < plate.texts().size()) {
        plate.fill(area, Palette::selected);
      }
      RouteMarks.sample(plate, f.kind(), 2, begin + 8, Symbols.tone(f.standing()));
      plate.spot(f.key(), area, RouteDrawing.faultWords(f, run, length));
    }
    return y + 4;
  }

  private double legend(double top) {
    Legend legend = new Legend();
    ConductorColour grey = ConductorColour.of("grey");
    for (Certainty how : Certainty.values()) {
      legend.add(
          how.word(),
          (p, x, y) ->
              Insulation.draw(p, new Line2D.Double(x, y, x + Legend.SAMPLE, y), grey, how.dash()));
    }
    if (sheet.conductors().stream().anyMatch(this::unknownColour)) {
      Insulation.unknown(legend);
    }
    for (RouteFaults.Kind kind : RouteFaults.Kind.values()) {
      if (faults.stream().anyMatch(f -> f.kind() == kind)) {
        legend.add(kind.legend(), (p, x, y) -> RouteMarks.sample(p, kind, x, y, Palette::faulty));
      }
    }
    if (faults.stream().anyMatch(f -> f.at() != null)) {
      legend.add(
          "place \u00b1 U (k = 2)",
          (p, x, y) -> Symbols.bracket(p, x + 4, x + Legend.SAMPLE - 4, y, Palette::ink));
    }
    if (sheet.conductors().stream().anyMatch(this::changesColour)) {
      legend.add(
          "the colour changes somewhere here",
          (p, x, y) -> p.line(x, y, x + Legend.SAMPLE, y, Palette::line, 1.2, 2, 3));
    }
    return legend.lay(plate, top);
  }

  private boolean unknownColour(Conductor c) {
    String far = farColours.get(RouteDrawing.portIndex(c.port()));
    return !ConductorColour.of(c.colour()).known()
        || far != null && !ConductorColour.of(far).known();
  }

  private boolean changesColour(Conductor c) {
    String far = farColours.get(RouteDrawing.portIndex(c.port()));
    return far != null && !ConductorColour.of(far).equals(ConductorColour.of(c.colour()));
  }
}
