package bellwire.app.document;

import bellwire.app.document.Wiring.Strand;
import bellwire.app.document.block.Span;
import bellwire.app.document.page.Ink;
import bellwire.app.document.page.Paper;
import bellwire.app.document.page.Placed;
import bellwire.app.document.page.Sheet;
import bellwire.app.document.type.TextLine;
import bellwire.app.document.type.Typesetter;
import java.util.ArrayList;
import java.util.List;

/** Labels for conductors' ends, in plain words; none needs this program to be read. */
final class Labels {
  private static final int COLUMNS = 3;
  private static final double EDGE = 30;
  private static final double HEIGHT = 78;
  private static final double SINGLE_WIDTH = 176;
  private static final double PAD = 7;
  private static final double LETTER = 26;
  private static final double CUT = 0.4;
  private static final double SMALL = 7.5;
  private static final double SMALL_LEADING = 10;

  private final ReportContents contents;
  private final Figures figures;
  private final Wiring wiring;

  /**
   * What one says.
   *
   * @param large the terminal
   */
  private record Label(String large, String colour, String other, String where, String date) {}

  Labels(ReportContents contents) {
    this.contents = contents;
    figures = new Figures(contents.zone(), contents.feet());
    wiring = new Wiring(contents);
  }

  ReportFiles.Pages sheets(Paper paper) {
    return type -> {
      List<Label> all = new ArrayList<>();
      wiring.strands().forEach(s -> all.addAll(both(s)));
      double width = (paper.width() - 2 * EDGE) / COLUMNS;
      int rows = (int) ((paper.height() - 2 * EDGE) / HEIGHT);
      List<Sheet> sheets = new ArrayList<>();
      for (int from = 0; from == 0 || from < all.size(); from += rows * COLUMNS) {
        List<Placed> placed = new ArrayList<>();
        for (int i = from; i < Math.min(all.size(), from + rows * COLUMNS); i++) {
          double x = EDGE + (i - from) % COLUMNS * width;
          double y = EDGE + (i - from) / COLUMNS * HEIGHT;
          frame(placed, x, y, width);
          label(placed, type, all.get(i), x, y, width);
        }
        if (all.isEmpty()) {
          TextLine line = type.line(Span.list("No conductors were recorded: no labels."), 11);
          placed.add(new Placed.Text(line, EDGE, EDGE + 20));
        }
        sheets.add(new Sheet(paper.width(), paper.height(), placed));
      }
      return sheets;
    };
  }

  /** The near end's and the far end's, a page each. */
  ReportFiles.Pages single(long cable, int port) {
    return type -> {
      List<Sheet> sheets = new ArrayList<>();
      wiring.strands().stream()
          .filter(s -> s.cable().row().id() == cable && s.port() == port)
          .flatMap(s -> both(s).stream())
          .forEach(
              l -> {
                List<Placed> placed = new ArrayList<>();
                label(placed, type, l, 0, 0, SINGLE_WIDTH);
                sheets.add(new Sheet(SINGLE_WIDTH, HEIGHT, placed));
              });
      if (sheets.isEmpty()) {
        throw new IllegalArgumentException("no such conductor: cable=" + cable + " port=" + port);
      }
      return sheets;
    };
  }

  private List<Label> both(Strand s) {
    String cable = s.cable().row().name();
    String date =
        (cable.isEmpty() ? "" : "cable " + Span.own(cable) + ", ")
            + figures.date(contents.madeAt());
    boolean spare = s.near().isEmpty() && s.far().isEmpty();
    String from = place("equipment", s.cable().row().nearPlace());
    String to = place("wall", s.cable().row().farPlace());
    return List.of(
        new Label(
            large(s, s.near(), "P" + (s.port() + 1)),
            Span.own(s.name()),
            spare && s.landed() ? "spare at both ends" : "at the wall: " + wall(s),
            "hangs at the " + from,
            date),
        new Label(
            large(s, s.far(), s.position() == 0 ? "?" : "no. " + s.position()),
            s.farName().isEmpty()
                ? Span.own(s.name())
                : Span.own(s.farName()) + ", at the equipment " + Span.own(s.name()),
            spare && s.landed() ? "spare at both ends" : "at the equipment: " + equipment(s),
            "hangs at the " + to,
            date));
  }

  private static String large(Strand s, String terminal, String unlanded) {
    return !terminal.isEmpty() ? terminal : s.landed() ? "free" : unlanded;
  }

  private static String wall(Strand s) {
    if (!s.far().isEmpty() || s.landed()) {
      return s.far().isEmpty() ? "free" : s.far();
    }
    return s.position() == 0 ? "not identified" : "no. " + s.position();
  }

  private static String equipment(Strand s) {
    if (!s.near().isEmpty() || s.landed()) {
      return s.near().isEmpty() ? "free" : s.near();
    }
    return "port P" + (s.port() + 1);
  }

  private static String place(String which, String told) {
    return told.isEmpty() ? which : which + ", " + Span.own(told);
  }

  private static void frame(List<Placed> placed, double x, double y, double width) {
    placed.add(new Placed.Fill(x, y, width, CUT, Ink.LINE));
    placed.add(new Placed.Fill(x, y + HEIGHT - CUT, width, CUT, Ink.LINE));
    placed.add(new Placed.Fill(x, y, CUT, HEIGHT, Ink.LINE));
    placed.add(new Placed.Fill(x + width - CUT, y, CUT, HEIGHT, Ink.LINE));
  }

  private static void label(
      List<Placed> placed, Typesetter type, Label label, double x, double y, double width) {
    double left = 0.32 * width;
    double size = LETTER;
    TextLine large = type.line(List.of(Span.bold(label.large())), size);
    while (large.width() > left - PAD && size > 7) {
      size -= 1;
      large = type.line(List.of(Span.bold(label.large())), size);
    }
    large = type.cut(Span.bold(label.large()), size, left - PAD);
    placed.add(new Placed.Text(large, x + PAD, y + HEIGHT / 2 + 0.36 * size));
    double room = width - left - 2 * PAD;
    double base = y + 15;
    List<TextLine> colour = type.lines(List.of(Span.bold(label.colour())), 10, room);
    for (int i = 0; i < Math.min(2, colour.size()); i++) {
      TextLine line =
          i == 1 && colour.size() > 2
              ? type.cut(Span.bold(colour.get(1).text() + "\u2026"), 10, room)
              : colour.get(i);
      placed.add(new Placed.Text(line, x + left + PAD, base));
      base += 12.5;
    }
    placed.add(new Placed.Text(type.cut(Span.of(label.other()), 8, room), x + left + PAD, base));
    base += 11;
    for (TextLine line : small(type, label, room, y + HEIGHT - base)) {
      placed.add(new Placed.Text(line, x + left + PAD, base));
      base += SMALL_LEADING;
    }
  }

  /** Place and date; the place in two lines where there is room. */
  private static List<TextLine> small(Typesetter type, Label label, double room, double height) {
    List<TextLine> where = type.lines(List.of(Span.faint(label.where())), SMALL, room);
    TextLine date = type.cut(Span.faint(label.date()), SMALL, room);
    return where.size() == 2 && height > 2.5 * SMALL_LEADING
        ? List.of(where.get(0), where.get(1), date)
        : List.of(type.cut(Span.faint(label.where()), SMALL, room), date);
  }
}
