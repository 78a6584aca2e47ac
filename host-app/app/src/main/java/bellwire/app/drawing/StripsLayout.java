package bellwire.app.drawing;

import bellwire.app.drawing.Plate.Align;
import bellwire.app.drawing.StripsModel.Clamp;
import bellwire.app.drawing.StripsModel.Jumper;
import bellwire.app.drawing.StripsModel.Mark;
import bellwire.app.drawing.StripsModel.Side;
import bellwire.app.drawing.StripsModel.Strand;
import bellwire.app.sheet.SurveySheet.Standing;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Lays two strips out on a plate: jumpers, strips, fans, and the cable in the middle. */
final class StripsLayout {
  private static final double TOP = 34;
  private static final int TITLE_LINES = 2;
  private static final double CLAMP = 30;
  private static final double STRAND = 36;
  private static final double JUMPER = 7;
  private static final double MARK = 16;

  private final Plate plate;
  private final StripsModel model;
  private final @Nullable String selectedKey;
  private final Font font = Lettering.regular(Drawing.TYPE);
  private final Font bold = Lettering.bold(Drawing.TYPE + 2);
  private final Map<String, Double> heights = new HashMap<>();
  private final double strip;
  private final double nearLeft;
  private final double farLeft;
  private final double cableLeft;
  private final double cableRight;

  StripsLayout(Plate plate, StripsModel model, @Nullable String selectedKey) {
    this.plate = plate;
    this.model = model;
    this.selectedKey = selectedKey;
    double width = plate.width();
    strip = Math.max(62, Math.min(160, 0.17 * width));
    nearLeft = outside(Side.NEAR);
    farLeft = width - outside(Side.FAR) - strip;
    double between = farLeft - nearLeft - strip;
    double fan = Math.max(34, Math.min(110, 0.24 * between));
    cableLeft = nearLeft + strip + fan;
    cableRight = farLeft - fan;
  }

  /** Room outside a strip for its jumpers, each in a lane of its own, and a mark. */
  private double outside(Side side) {
    long jumpers = model.jumpers().stream().filter(j -> j.side() == side).count();
    return MARK + 4 + (jumpers == 0 ? 0 : 6 + JUMPER * Math.min(jumpers, 6));
  }

  Plate lay() {
    double strips = CLAMP * Math.max(model.near().size(), model.far().size());
    double cable = STRAND * model.strands().size();
    double middle = TOP + Math.max(strips, cable) / 2;
    place(Side.NEAR, model.near(), middle);
    place(Side.FAR, model.far(), middle);
    double y = middle - cable / 2;
    for (Strand s : model.strands()) {
      heights.put(StripsModel.strandKey(s.name()), y + STRAND - 12);
      y += STRAND;
    }
    title(model.nearTitle(), nearLeft, Align.LEFT);
    title(model.farTitle(), farLeft + strip, Align.RIGHT);
    model.strands().forEach(this::strand);
    jumpers(Side.NEAR);
    jumpers(Side.FAR);
    strip(Side.NEAR, model.near());
    strip(Side.FAR, model.far());
    double end = TOP + Math.max(strips, cable) + 6;
    plate.height(legend(marks(end)) + 4);
    return plate;
  }

  private void place(Side side, List<Clamp> clamps, double middle) {
    double y = middle - CLAMP * clamps.size() / 2;
    for (Clamp c : clamps) {
      heights.put(StripsModel.clampKey(side, c.letter()), y + CLAMP / 2);
      y += CLAMP;
    }
  }

  private void title(String words, double x, Align align) {
    double room = plate.width() / 2 - 16;
    List<String> lines = Lettering.wrap(Lettering.clean(words), font, room);
    for (int i = 0; i < Math.min(TITLE_LINES, lines.size()); i++) {
      boolean cut = i == TITLE_LINES - 1 && lines.size() > TITLE_LINES;
      String line =
          cut ? Lettering.shorten(lines.get(i) + " \u2026\u2026", font, room) : lines.get(i);
      plate.text(line, font, x, 11 + 12 * i, align, Palette::faint);
    }
  }

  private double height(String key) {
    return heights.getOrDefault(key, TOP);
  }

  private void strip(Side side, List<Clamp> clamps) {
    double left = side == Side.NEAR ? nearLeft : farLeft;
    for (Clamp c : clamps) {
      String key = StripsModel.clampKey(side, c.letter());
      Rectangle2D box = new Rectangle2D.Double(left, height(key) - CLAMP / 2 + 1, strip, CLAMP - 2);
      RoundRectangle2D shape =
          new RoundRectangle2D.Double(box.getX(), box.getY(), strip, CLAMP - 2, 6, 6);
      plate.fill(shape, key.equals(selectedKey) ? Palette::selected : Palette::panel);
      boolean lit = model.lit().contains(key);
      if (lit) {
        plate.stroke(shape, Palette::lit, 4);
      }
      plate.stroke(shape, key.equals(selectedKey) ? Palette::accent : Palette::line, lit ? 1 : 1.4);
      clampWords(c, side, box);
      standing(key)
          .ifPresent(
              s -> {
                double x = side == Side.NEAR ? left - MARK / 2 - 2 : left + strip + MARK / 2 + 2;
                padded(s, x, box.getCenterY());
              });
      plate.spot(key, box, StripsDrawing.words(model, side, c));
    }
  }

  private void padded(Standing s, double x, double y) {
    plate.fill(new Ellipse2D.Double(x - 8, y - 8, 16, 16), Palette::paper);
    Symbols.standing(plate, s, x, y, 9);
  }

  private void clampWords(Clamp c, Side side, Rectangle2D box) {
    String letter = Lettering.shorten(Lettering.clean(c.letter()), bold, strip - 12);
    double wide = Lettering.width(letter, bold);
    double base = box.getCenterY() + 4.4;
    boolean near = side == Side.NEAR;
    // Letters stand at the cable's side, where the copper goes in.
    double edge = near ? box.getMaxX() - 8 : box.getMinX() + 8;
    plate.text(letter, bold, edge, base, near ? Align.RIGHT : Align.LEFT, Palette::ink);
    double room = strip - wide - 22;
    String words = Lettering.shorten(Lettering.clean(c.words()), font, room);
    if (words.equals(Lettering.clean(c.words())) || Lettering.width(words, font) > 24) {
      double outer = near ? box.getMinX() + 6 : box.getMaxX() - 6;
      plate.text(words, font, outer, base - 0.8, near ? Align.LEFT : Align.RIGHT, Palette::faint);
    }
  }

  private Optional<Standing> standing(String key) {
    return model.marks().stream().filter(m -> m.key().equals(key)).map(Mark::standing).findFirst();
  }

  private void strand(Strand s) {
    String key = StripsModel.strandKey(s.name());
    double y = height(key);
    Rectangle2D row =
        new Rectangle2D.Double(cableLeft, y - STRAND + 12, cableRight - cableLeft, STRAND);
    if (key.equals(selectedKey)) {
      plate.fill(row, Palette::selected);
    }
    ConductorColour near = ConductorColour.of(s.nearColour());
    ConductorColour far = s.farColour() == null ? near : ConductorColour.of(s.farColour());
    double middle = (cableLeft + cableRight) / 2;
    Path2D nearPath = new Path2D.Double();
    double nearX = end(nearPath, s.near(), Side.NEAR, y);
    nearPath.lineTo(middle, y);
    Path2D farPath = new Path2D.Double();
    double farX = end(farPath, s.far(), Side.FAR, y);
    farPath.lineTo(middle, y);
    if (model.lit().contains(key)) {
      plate.stroke(nearPath, Palette::lit, 13);
      plate.stroke(farPath, Palette::lit, 13);
    }
    Insulation.draw(plate, nearPath, near);
    Insulation.draw(plate, farPath, far);
    if (s.broken()) {
      plate.fill(
          new Rectangle2D.Double(middle - 9, y - 7, 18, 14),
          key.equals(selectedKey) ? Palette::selected : Palette::paper);
      Symbols.broken(plate, middle, y, Palette::faulty);
    }
    strandWords(s, key, y);
    endSpot(Side.NEAR, s, nearX);
    plate.spot(key, row, StripsDrawing.words(model, s));
    endSpot(Side.FAR, s, farX);
  }

  /** Begins a conductor's path at its terminal, or at a free end; returns where. */
  private double end(Path2D path, @Nullable String letter, Side side, double y) {
    boolean near = side == Side.NEAR;
    double cable = near ? cableLeft : cableRight;
    if (letter == null) {
      double x = cable + (near ? -14 : 14);
      path.moveTo(x, y);
      plate.stroke(new Ellipse2D.Double(x - (near ? 8 : 0), y - 4, 8, 8), Palette::faint, 1.6);
      return x;
    }
    double x = near ? nearLeft + strip : farLeft;
    double clamp = height(StripsModel.clampKey(side, letter)) + offset(letter, side, y);
    path.moveTo(x, clamp);
    double middle = (x + cable) / 2;
    path.curveTo(middle, clamp, middle, y, cable, y);
    return x;
  }

  /** Several conductors under one terminal stand a little apart. */
  private double offset(String letter, Side side, double y) {
    List<Double> rows = new ArrayList<>();
    for (Strand s : model.strands()) {
      if (letter.equals(side == Side.NEAR ? s.near() : s.far())) {
        rows.add(height(StripsModel.strandKey(s.name())));
      }
    }
    double apart = Math.min(8, (CLAMP - 8) / Math.max(1, rows.size()));
    return apart * (rows.indexOf(y) - (rows.size() - 1) / 2.0);
  }

  private void strandWords(Strand s, String key, double y) {
    double x = cableLeft + 2;
    Optional<Standing> standing = standing(key);
    if (standing.isPresent()) {
      Symbols.standing(plate, standing.get(), x + 5, y - 12, 9);
      x += 16;
    }
    String words = s.name() + (s.broken() ? " (broken)" : "");
    double room = cableRight - 2 - x;
    String cut = Lettering.shorten(Lettering.clean(words), font, room);
    plate.text(cut, font, x, y - 8, Align.LEFT, Palette::ink);
  }

  private void endSpot(Side side, Strand s, double x) {
    String letter = side == Side.NEAR ? s.near() : s.far();
    double y = height(StripsModel.strandKey(s.name()));
    if (letter != null) {
      y = height(StripsModel.clampKey(side, letter)) + offset(letter, side, y);
    }
    String title = side == Side.NEAR ? model.nearTitle() : model.farTitle();
    plate.spot(
        StripsModel.endKey(side, s.name()),
        new Rectangle2D.Double(side == Side.NEAR ? x - 4 : x - 20, y - 8, 24, 16),
        s.name() + ", end at the " + title + ": " + (letter == null ? "free" : "under " + letter));
  }

  private void jumpers(Side side) {
    int lane = 0;
    for (Jumper j : model.jumpers()) {
      if (j.side() != side) {
        continue;
      }
      boolean near = side == Side.NEAR;
      double edge = near ? nearLeft : farLeft + strip;
      double out = (near ? -1 : 1) * (MARK + 4 + JUMPER * Math.min(lane++, 5));
      double a = height(StripsModel.clampKey(side, j.a()));
      double b = height(StripsModel.clampKey(side, j.b()));
      // Lanes keep jumpers that end at one terminal apart.
      double shift = 2 * (lane - 1) % 8;
      Path2D path =
          Symbols.path(
              edge, a + shift, edge + out, a + shift, edge + out, b - shift, edge, b - shift);
      String key = StripsModel.jumperKey(j);
      if (model.lit().contains(key)) {
        plate.stroke(path, Palette::lit, 8);
      }
      plate.stroke(path, key.equals(selectedKey) ? Palette::accent : Palette::ink, 2);
      standing(key).ifPresent(s -> padded(s, edge + out, (a + b) / 2));
      Rectangle2D bounds = path.getBounds2D();
      plate.spot(
          key,
          new Rectangle2D.Double(
              bounds.getX() - 3, bounds.getY(), bounds.getWidth() + 6, bounds.getHeight()),
          StripsDrawing.words(model, j));
    }
  }

  /** The findings in words, below. */
  private double marks(double top) {
    double y = top;
    for (Mark mark : model.marks()) {
      Symbols.standing(plate, mark.standing(), 8, y + 11, 9);
      for (String line : Lettering.wrap(Lettering.clean(mark.words()), font, plate.width() - 26)) {
        y += 15;
        plate.text(line, font, 22, y, Align.LEFT, Palette::ink);
      }
      y += 3;
    }
    return y + 6;
  }

  private double legend(double top) {
    Legend legend = new Legend();
    ConductorColour grey = ConductorColour.of("grey");
    if (!model.lit().isEmpty()) {
      legend.add(
          "carries the current",
          (p, x, y) -> {
            Line2D line = new Line2D.Double(x, y, x + Legend.SAMPLE, y);
            p.stroke(line, Palette::lit, 13);
            Insulation.draw(p, line, grey);
          });
    }
    if (model.strands().stream().anyMatch(s -> s.near() == null || s.far() == null)) {
      legend.add(
          "free end",
          (p, x, y) -> {
            p.stroke(new Ellipse2D.Double(x + 2, y - 4, 8, 8), Palette::faint, 1.6);
            Insulation.draw(p, new Line2D.Double(x + 10, y, x + Legend.SAMPLE, y), grey);
          });
    }
    if (model.strands().stream().anyMatch(StripsLayout::unknownColour)) {
      Insulation.unknown(legend);
    }
    if (model.strands().stream().anyMatch(Strand::broken)) {
      legend.add("broken", (p, x, y) -> Symbols.broken(p, x + 15, y, Palette::faulty));
    }
    if (!model.jumpers().isEmpty()) {
      legend.add(
          "jumper",
          (p, x, y) ->
              p.stroke(
                  Symbols.path(x + 24, y - 5, x + 6, y - 5, x + 6, y + 5, x + 24, y + 5),
                  Palette::ink,
                  2));
    }
    for (Standing s : List.of(Standing.FAULTY, Standing.UNDECIDED)) {
      if (model.marks().stream().anyMatch(m -> m.standing() == s)) {
        legend.add(s.word(), (p, x, y) -> Symbols.standing(p, s, x + 15, y, 9));
      }
    }
    return legend.lay(plate, top);
  }

  private static boolean unknownColour(Strand s) {
    return !ConductorColour.of(s.nearColour()).known()
        || s.farColour() != null && !ConductorColour.of(s.farColour()).known();
  }
}
