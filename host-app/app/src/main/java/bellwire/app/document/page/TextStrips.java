package bellwire.app.document.page;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Block.Paragraph.Size;
import bellwire.app.document.block.Span;
import bellwire.app.document.type.TextLine;
import bellwire.app.document.type.Typesetter;
import java.util.ArrayList;
import java.util.List;

/** Headings, paragraphs and cautions as strips. */
final class TextStrips {
  static final double LEADING = 1.34;
  static final double BODY = 10;
  static final double SMALL = 8.5;
  private static final double LEAD = 12;
  private static final double PAD = 9;
  private static final double BAR = 4;

  private final Typesetter type;
  private final double width;

  TextStrips(Typesetter type, double width) {
    this.type = type;
    this.width = width;
  }

  /** The line with its share of room above and below. */
  static Placed.Text placed(TextLine line, double x, double top, double leading) {
    double above = (leading - line.height()) / 2;
    return new Placed.Text(line, x, top + above + line.ascent());
  }

  List<Strip> heading(Block.Heading heading) {
    double size = heading.level() == 1 ? 16 : heading.level() == 2 ? 12 : 10.5;
    List<Strip> out = new ArrayList<>();
    out.add(Strip.gap(heading.level() == 1 ? 20 : 13));
    List<TextLine> lines = type.lines(List.of(Span.bold(heading.text())), size, width);
    for (TextLine line : lines) {
      List<Placed> items = new ArrayList<>();
      if (out.size() == 1) {
        items.add(new Placed.Bookmark(heading.level(), heading.text(), 0));
      }
      items.add(placed(line, 0, 0, size * LEADING));
      out.add(Strip.of(size * LEADING, items, true));
    }
    if (heading.level() == 1) {
      out.add(Strip.of(7, List.of(new Placed.Fill(0, 1.5, width, 1.2, Ink.STRONG_LINE)), true));
    } else {
      out.add(Strip.of(2, List.of(), true));
    }
    return out;
  }

  List<Strip> paragraph(Block.Paragraph paragraph) {
    double size =
        paragraph.size() == Size.LEAD ? LEAD : paragraph.size() == Size.BODY ? BODY : SMALL;
    List<Strip> out = new ArrayList<>();
    out.add(Strip.gap(size * 0.45));
    List<TextLine> lines = type.lines(paragraph.spans(), size, width);
    for (int i = 0; i < lines.size(); i++) {
      out.add(
          Strip.of(
              size * LEADING,
              List.of(placed(lines.get(i), 0, 0, size * LEADING)),
              isKept(i, lines.size())));
    }
    return out;
  }

  /** No single line of a paragraph is left alone, neither its first nor its last. */
  static boolean isKept(int line, int of) {
    return line < of - 1 && (line == 0 || line == of - 2);
  }

  List<Strip> cautions(Block.Cautions cautions) {
    List<Strip> out = new ArrayList<>();
    out.add(Strip.gap(10));
    out.add(ground(PAD - 3, List.of(), true));
    double x = BAR + PAD;
    double size = 10.5;
    for (TextLine line : type.lines(List.of(Span.bold(cautions.title())), size, width - x - PAD)) {
      out.add(ground(size * LEADING, List.of(placed(line, x, 0, size * LEADING)), true));
    }
    for (String caution : cautions.lines()) {
      TextLine bullet = type.line(Span.list("\u2022"), BODY);
      List<TextLine> lines = type.lines(Span.list(caution), BODY, width - x - 12 - PAD);
      for (int i = 0; i < lines.size(); i++) {
        List<Placed> items = new ArrayList<>();
        if (i == 0) {
          items.add(placed(bullet, x, 0, BODY * LEADING));
        }
        items.add(placed(lines.get(i), x + 12, 0, BODY * LEADING));
        out.add(ground(BODY * LEADING, items, true));
      }
    }
    out.add(ground(PAD - 3, List.of(), false));
    return out;
  }

  private Strip ground(double height, List<Placed> items, boolean glued) {
    List<Placed> all = new ArrayList<>();
    all.add(new Placed.Fill(0, 0, width, height, Ink.CAUTION_GROUND));
    all.add(new Placed.Fill(0, 0, BAR, height, Ink.CAUTION_BAR));
    all.addAll(items);
    return Strip.of(height, all, glued);
  }
}
