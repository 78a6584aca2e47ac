package bellwire.app.document;

import bellwire.app.document.ReportContents.Vigil;
import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.drawing.VigilDrawing;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.VigilGrid;
import bellwire.app.vigil.VigilStatement;
import bellwire.app.vigil.VigilText;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Vigils: what they saw, how often, how sure. */
final class VigilPart {
  private final ReportContents contents;
  private final Figures figures;

  VigilPart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  /** What was found, a sentence each. */
  static List<String> findings(StoredVigil vigil, ZoneId zone) {
    return statement(vigil, zone).stream()
        .filter(VigilStatement.Line::finding)
        .map(VigilStatement.Line::words)
        .toList();
  }

  /** The statement's first sentence. */
  static Optional<String> first(StoredVigil vigil, ZoneId zone) {
    return statement(vigil, zone).stream().findFirst().map(VigilStatement.Line::words);
  }

  private static List<VigilStatement.Line> statement(StoredVigil vigil, ZoneId zone) {
    return VigilText.statement(vigil, zone).parts().stream()
        .filter(p -> p.title().equals("STATEMENT"))
        .findFirst()
        .map(VigilStatement.Part::lines)
        .orElse(List.of());
  }

  List<Block> blocks() {
    List<Block> out = new ArrayList<>(List.of(new Block.Heading(1, "Vigil")));
    if (contents.vigils().isEmpty()) {
      out.add(Block.Paragraph.of("No vigil was kept."));
    }
    for (Vigil vigil : contents.vigils()) {
      out.add(
          new Block.Heading(
              2,
              "Of "
                  + figures.when(vigil.row().startedUnixMicros())
                  + ", watching for "
                  + vigil.row().program()));
      vigil
          .stored()
          .ifPresentOrElse(
              stored -> {
                List<VigilStatement.Part> parts =
                    VigilText.statement(stored, contents.zone()).parts();
                parts.forEach(part -> part(out, part));
                VigilGrid.of(stored, contents.zone()).forEach(grid -> grid(out, grid));
                out.add(
                    new Block.Figure(
                        new VigilDrawing(stored, contents.zone()),
                        "The whole time, from its begin to its end."));
              },
              () -> out.add(Block.Paragraph.of("It can't be told: " + vigil.trouble())));
    }
    return out;
  }

  private static void grid(List<Block> out, VigilGrid grid) {
    out.add(new Block.Heading(3, grid.title()));
    out.add(
        new Block.Table(
            grid.head(),
            grid.rows().stream().map(row -> row.stream().map(Span::list).toList()).toList()));
  }

  private static void part(List<Block> out, VigilStatement.Part part) {
    if (part.lines().isEmpty()) {
      return;
    }
    if (!part.title().isEmpty()) {
      out.add(new Block.Heading(3, title(part.title())));
    }
    for (VigilStatement.Line line : part.lines()) {
      String item = line.lead().strip();
      List<Span> spans =
          line.finding()
              ? List.of(Span.bold("! "), Span.bold(line.words()))
              : Span.list(item.equals("-") ? "\u2022 " + line.words() : line.words());
      out.add(new Block.Paragraph(spans, Block.Paragraph.Size.BODY));
    }
  }

  private static String title(String capitals) {
    return capitals.equals("TIME")
        ? "Marks"
        : capitals.charAt(0) + capitals.substring(1).toLowerCase(Locale.ROOT);
  }
}
