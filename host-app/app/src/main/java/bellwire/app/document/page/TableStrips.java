package bellwire.app.document.page;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.document.type.TextLine;
import bellwire.app.document.type.Typesetter;
import bellwire.app.document.type.Typesetter.Extent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Tables as strips, one a line of a row, so that a row too long for a page goes on on the next. */
final class TableStrips {
  private static final double SIZE = 9;
  private static final double HEAD_SIZE = 8.5;
  private static final double PAD = 3;
  private static final double BETWEEN = 9;

  /** Rows up to so many lines are not parted. */
  private static final int WHOLE_LINES = 14;

  private final Typesetter type;
  private final double width;
  private int rows;

  TableStrips(Typesetter type, double width) {
    this.type = type;
    this.width = width;
  }

  List<Strip> table(Block.Table table) {
    double[] widths = widths(table);
    List<Strip> out = new ArrayList<>();
    out.add(Strip.gap(6));
    List<List<Span>> bold = table.head().stream().map(h -> List.of(Span.bold(h))).toList();
    List<Strip> head = new ArrayList<>();
    for (Strip strip : row(bold, widths, HEAD_SIZE, true)) {
      head.add(
          new Strip(strip.height(), strip.items(), strip.kind(), true, List.of(), strip.row()));
    }
    out.addAll(head);
    for (int i = 0; i < table.rows().size(); i++) {
      List<Strip> row = row(table.rows().get(i), widths, SIZE, false);
      // The last row is not left alone on a page.
      boolean kept = i == table.rows().size() - 2 && row.size() <= WHOLE_LINES;
      for (int k = 0; k < row.size(); k++) {
        Strip strip = row.get(k).under(head);
        out.add(kept && k == row.size() - 1 ? strip.kept() : strip);
      }
    }
    return out;
  }

  List<Strip> facts(Block.Facts facts) {
    double name = 0;
    for (Block.Fact fact : facts.facts()) {
      name = Math.max(name, type.extent(List.of(Span.faint(fact.name())), SIZE).whole());
    }
    double first = Math.min(name + BETWEEN, 0.36 * width);
    List<Strip> out = new ArrayList<>(List.of(Strip.gap(4)));
    for (Block.Fact fact : facts.facts()) {
      out.addAll(
          row(
              List.of(List.of(Span.faint(fact.name())), fact.spans()),
              new double[] {first, width - first},
              SIZE,
              false));
    }
    return out;
  }

  List<Strip> statements(Block.Statements statements) {
    double first = 76;
    List<Strip> out = new ArrayList<>(List.of(Strip.gap(2)));
    for (Block.Statement line : statements.lines()) {
      String mark = line.mark().shape() + " " + line.mark().word();
      List<List<Span>> cells = List.of(List.of(Span.faint(mark)), line.spans());
      out.addAll(row(cells, new double[] {first, width - first}, TextStrips.BODY - 0.5, false));
    }
    return out;
  }

  /**
   * Columns as wide as their text, as far as there is room; else between their longest words and
   * that, each by the same share.
   */
  private double[] widths(Block.Table table) {
    int n = table.head().size();
    double[] least = new double[n];
    double[] most = new double[n];
    for (int c = 0; c < n; c++) {
      grow(least, most, c, type.extent(List.of(Span.bold(table.head().get(c))), HEAD_SIZE));
      for (List<List<Span>> row : table.rows()) {
        grow(least, most, c, type.extent(row.get(c), SIZE));
      }
      // Nobody's long word starves the others.
      least[c] = Math.min(least[c], 0.5 * width) + BETWEEN;
      most[c] = Math.min(width, Math.max(most[c] + BETWEEN, least[c]));
    }
    return shared(least, most);
  }

  private double[] shared(double[] least, double[] most) {
    double sumLeast = Arrays.stream(least).sum();
    double sumMost = Arrays.stream(most).sum();
    double[] out = new double[least.length];
    for (int c = 0; c < out.length; c++) {
      if (sumMost <= width) {
        out[c] = most[c] + (width - sumMost) * most[c] / sumMost;
      } else if (sumLeast >= width) {
        out[c] = least[c] * width / sumLeast;
      } else {
        out[c] = least[c] + (width - sumLeast) * (most[c] - least[c]) / (sumMost - sumLeast);
      }
    }
    return out;
  }

  private static void grow(double[] least, double[] most, int c, Extent extent) {
    least[c] = Math.max(least[c], extent.longestPart());
    most[c] = Math.max(most[c], extent.whole());
  }

  private List<Strip> row(List<List<Span>> cells, double[] widths, double size, boolean isHead) {
    List<List<TextLine>> set = new ArrayList<>();
    int lines = 1;
    for (int c = 0; c < cells.size(); c++) {
      set.add(type.lines(cells.get(c), size, widths[c] - BETWEEN));
      lines = Math.max(lines, set.get(c).size());
    }
    double leading = size * TextStrips.LEADING;
    int row = ++rows;
    List<Strip> out = new ArrayList<>();
    for (int i = 0; i < lines; i++) {
      boolean last = i == lines - 1;
      double top = i == 0 ? PAD : 0;
      double height = top + leading + (last ? PAD : 0);
      List<Placed> items = new ArrayList<>();
      if (isHead) {
        items.add(new Placed.Fill(0, 0, width, height, Ink.HEAD_GROUND));
      }
      double x = BETWEEN / 2;
      for (int c = 0; c < cells.size(); c++) {
        if (i < set.get(c).size()) {
          items.add(TextStrips.placed(set.get(c).get(i), x, top, leading));
        }
        x += widths[c];
      }
      if (last) {
        items.add(
            new Placed.Fill(0, height - 0.5, width, 0.5, isHead ? Ink.STRONG_LINE : Ink.LINE));
      }
      boolean kept = lines <= WHOLE_LINES ? !last : TextStrips.isKept(i, lines);
      out.add(new Strip(height, items, Strip.Kind.CONTENT, kept, List.of(), row));
    }
    return out;
  }
}
