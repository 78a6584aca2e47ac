package bellwire.app.document.page;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.document.type.TextLine;
import bellwire.app.document.type.Typesetter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Sets blocks on pages, with running heads and numbers. */
public final class Composition {
  private static final double SIDE = 54;
  private static final double TOP = 62;
  private static final double BOTTOM = 56;
  private static final double RUNNING = 8;

  /** Words at the edges of all pages. */
  public record Running(String left, String right, String foot) {}

  private final Paper paper;
  private final Typesetter type;
  private final Running running;
  private final double width;
  private final double height;

  private final TextStrips text;
  private final TableStrips table;
  private final FigureStrips figures;
  private final List<List<Placed>> pages = new ArrayList<>();

  /** Where on the page the row begins that is being set. */
  private int rowFrom;

  private int row;
  private double used;

  public Composition(Paper paper, Typesetter type, Running running) {
    this.paper = paper;
    this.type = type;
    this.running = running;
    width = paper.width() - 2 * SIDE;
    height = paper.height() - TOP - BOTTOM;
    text = new TextStrips(type, width);
    table = new TableStrips(type, width);
    figures = new FigureStrips(type, width, height - 60);
  }

  public List<Sheet> sheets(List<Block> blocks) {
    List<Strip> strips = new ArrayList<>();
    blocks.forEach(block -> strips.addAll(strips(block)));
    pages.add(new ArrayList<>());
    int from = 0;
    while (from < strips.size()) {
      int to = from + 1;
      while (to < strips.size() && strips.get(to - 1).glued()) {
        to++;
      }
      place(strips.subList(from, to));
      from = to;
    }
    return finished();
  }

  private List<Strip> strips(Block block) {
    if (block instanceof Block.Heading heading) {
      return text.heading(heading);
    } else if (block instanceof Block.Paragraph paragraph) {
      return text.paragraph(paragraph);
    } else if (block instanceof Block.Cautions cautions) {
      return text.cautions(cautions);
    } else if (block instanceof Block.Statements statements) {
      return table.statements(statements);
    } else if (block instanceof Block.Facts facts) {
      return table.facts(facts);
    } else if (block instanceof Block.Table rows) {
      return table.table(rows);
    } else if (block instanceof Block.Figure figure) {
      return figures.figure(figure);
    } else if (block instanceof Block.Photographs photographs) {
      return figures.photographs(photographs);
    }
    return List.of(Strip.pageBreak());
  }

  private void place(List<Strip> group) {
    if (group.get(0).kind() == Strip.Kind.BREAK) {
      if (!atTop()) {
        turn();
      }
      return;
    }
    double whole = 0;
    for (Strip strip : group) {
      whole += strip.height();
    }
    if (!atTop() && used + whole > height && whole + headHeight(group) <= height) {
      turn();
    }
    for (Strip strip : group) {
      if (!atTop() && used + strip.height() > height) {
        turn();
      }
      if (atTop()) {
        strip.head().forEach(this::put);
      }
      put(strip);
    }
  }

  private static double headHeight(List<Strip> group) {
    return group.get(0).head().stream().mapToDouble(Strip::height).sum();
  }

  private void put(Strip strip) {
    if (strip.kind() == Strip.Kind.GAP && atTop()) {
      return;
    }
    List<Placed> page = pages.get(pages.size() - 1);
    if (strip.row() != row) {
      cellByCell();
      row = strip.row();
      rowFrom = page.size();
    }
    strip.items().forEach(item -> page.add(item.moved(SIDE, TOP + used)));
    used += strip.height();
  }

  private boolean atTop() {
    return used == 0;
  }

  /** A row's lines were set across all cells; who reads or copies them wants cell after cell. */
  private void cellByCell() {
    if (row != 0) {
      List<Placed> page = pages.get(pages.size() - 1);
      page.subList(rowFrom, page.size())
          .sort(Comparator.comparingDouble(p -> p instanceof Placed.Text t ? t.x() : 0));
    }
    row = 0;
    rowFrom = 0;
  }

  private void turn() {
    cellByCell();
    pages.add(new ArrayList<>());
    used = 0;
  }

  private List<Sheet> finished() {
    cellByCell();
    List<Sheet> out = new ArrayList<>();
    for (int i = 0; i < pages.size(); i++) {
      List<Placed> page = pages.get(i);
      page.addAll(edges(i + 1, pages.size()));
      out.add(new Sheet(paper.width(), paper.height(), List.copyOf(page)));
    }
    return out;
  }

  private List<Placed> edges(int number, int of) {
    List<Placed> out = new ArrayList<>();
    TextLine right = type.cut(Span.faint(running.right()), RUNNING, 0.4 * width);
    TextLine left = type.cut(Span.faint(running.left()), RUNNING, width - right.width() - 20);
    out.add(new Placed.Text(left, SIDE, 38));
    out.add(new Placed.Text(right, SIDE + width - right.width(), 38));
    out.add(new Placed.Fill(SIDE, 44, width, 0.5, Ink.LINE));
    TextLine page = type.line(List.of(Span.faint("page " + number + " of " + of)), RUNNING);
    TextLine foot = type.cut(Span.faint(running.foot()), RUNNING, width - page.width() - 20);
    double base = paper.height() - 32;
    out.add(new Placed.Text(foot, SIDE, base));
    out.add(new Placed.Text(page, SIDE + width - page.width(), base));
    return out;
  }
}
