package bellwire.app.document;

import bellwire.app.document.Wiring.Strand;
import bellwire.app.document.block.Span;
import bellwire.app.document.page.Ink;
import bellwire.app.document.page.Paper;
import bellwire.app.document.page.Placed;
import bellwire.app.document.page.Sheet;
import bellwire.app.document.type.TextLine;
import bellwire.app.document.type.Typesetter;
import bellwire.app.job.Fact;
import java.awt.Color;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** A card for inside the panel: letter, colour, letter. One for each cable. */
final class PanelCard {
  private static final double WIDTH = 340;
  private static final double PAD = 14;
  private static final double ROW = 25;
  private static final double SIDE = 92;

  private final ReportContents contents;
  private final Figures figures;
  private final Wiring wiring;

  PanelCard(ReportContents contents) {
    this.contents = contents;
    figures = new Figures(contents.zone(), contents.feet());
    wiring = new Wiring(contents);
  }

  ReportFiles.Pages sheets(Paper paper) {
    return type -> {
      List<Sheet> sheets = new ArrayList<>();
      for (ReportContents.Cable cable : contents.cables()) {
        sheets.add(
            new Sheet(
                paper.width(),
                paper.height(),
                new Card(type, (paper.width() - WIDTH) / 2).of(cable)));
      }
      if (sheets.isEmpty()) {
        TextLine line = type.line(Span.list("No cable was recorded: no card."), 11);
        sheets.add(
            new Sheet(paper.width(), paper.height(), List.of(new Placed.Text(line, 60, 60))));
      }
      return sheets;
    };
  }

  /** One card. */
  private final class Card {
    private static final double TOP = 56;

    private final Typesetter type;
    private final double left;
    private final List<Placed> placed = new ArrayList<>();
    private double y = TOP + PAD;

    Card(Typesetter type, double left) {
      this.type = type;
      this.left = left;
    }

    List<Placed> of(ReportContents.Cable cable) {
      line(Span.bold("Control wiring, " + Summary.cable(cable).toLowerCase(Locale.ROOT)), 13);
      line(Span.of(join(contents.fact(Fact.SYSTEM), contents.fact(Fact.NEW_CONTROL))), 9);
      line(Span.faint(join(contents.fact(Fact.PLACE), figures.day(contents.madeAt()))), 8.5);
      y += 4;
      heads();
      for (Strand strand : wiring.strands(cable)) {
        row(strand);
      }
      wiring.jumpers(cable).forEach(words -> line(Span.of("jumper " + words), 9));
      y += 6;
      wrapped(
          Span.bold(
              "Low voltage only, 24 V class. Switch off at the disconnect and prove dead before"
                  + " touching. A fuse: find the cause, then the same type and rating."),
          8.5);
      frame();
      return placed;
    }

    private static String join(String a, String b) {
      return a.isEmpty() || b.isEmpty() ? a + b : Span.own(a) + " \u00b7 " + Span.own(b);
    }

    private void line(Span span, double size) {
      if (span.text().isEmpty()) {
        return;
      }
      TextLine cut = type.cut(span, size, WIDTH - 2 * PAD);
      placed.add(new Placed.Text(cut, left + PAD, y + size));
      y += size * 1.4;
    }

    private void wrapped(Span span, double size) {
      for (TextLine each : type.lines(List.of(span), size, WIDTH - 2 * PAD)) {
        placed.add(new Placed.Text(each, left + PAD, y + size));
        y += size * 1.35;
      }
    }

    private void heads() {
      double base = y + 9;
      cell(Span.faint("equipment"), 8.5, left + PAD, SIDE, base);
      cell(Span.faint("conductor"), 8.5, left + PAD + SIDE, WIDTH - 2 * PAD - 2 * SIDE, base);
      cell(Span.faint("control"), 8.5, left + WIDTH - PAD - SIDE, SIDE, base);
      y += 14;
      rule(Ink.STRONG_LINE);
    }

    private void row(Strand s) {
      double base = y + 17;
      String name =
          s.farName().isEmpty() ? s.name() : Span.own(s.name()) + " / " + Span.own(s.farName());
      String free = s.landed() ? "free" : "not noted";
      letter(s.near(), free, left + PAD, base);
      cell(Span.of(name), 10, left + PAD + SIDE, WIDTH - 2 * PAD - 2 * SIDE, base);
      letter(s.far(), free, left + WIDTH - PAD - SIDE, base);
      y += ROW;
      rule(Ink.LINE);
    }

    private void letter(String terminal, String free, double x, double base) {
      if (terminal.isEmpty()) {
        cell(Span.faint(free), 9, x, SIDE, base);
      } else {
        cell(Span.bold(terminal), 16, x, SIDE, base);
      }
    }

    private void cell(Span span, double size, double x, double width, double base) {
      placed.add(new Placed.Text(type.cut(span, size, width - 6), x, base));
    }

    private void rule(Color color) {
      placed.add(new Placed.Fill(left + PAD, y, WIDTH - 2 * PAD, 0.6, color));
    }

    private void frame() {
      double height = y + PAD - TOP;
      placed.add(new Placed.Fill(left, TOP, WIDTH, 0.6, Ink.STRONG_LINE));
      placed.add(new Placed.Fill(left, TOP + height, WIDTH, 0.6, Ink.STRONG_LINE));
      placed.add(new Placed.Fill(left, TOP, 0.6, height, Ink.STRONG_LINE));
      placed.add(new Placed.Fill(left + WIDTH, TOP, 0.6, height + 0.6, Ink.STRONG_LINE));
    }
  }
}
