package bellwire.app.document;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Block.Statement;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.job.Fact;
import java.util.ArrayList;
import java.util.List;

/** The page that a customer reads: found, done, works, not tested. */
final class FirstPage {
  /** At the most so many lines of each are on the first page; the rest is where it belongs. */
  static final int MOST = 6;

  private final ReportContents contents;
  private final Figures figures;

  FirstPage(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  /**
   * @param most lines of each
   */
  List<Block> blocks(int most) {
    List<Block> out = new ArrayList<>();
    out.add(new Block.Heading(1, "The visit in short"));
    out.add(Block.Paragraph.small(whose()));
    if (!contents.fact(Fact.SUMMARY).isEmpty()) {
      out.add(Block.Paragraph.lead(contents.fact(Fact.SUMMARY)));
    }
    Summary summary = new Summary(contents, figures);
    group(out, "What was found", summary.found(), "Nothing was recorded as found.", most);
    group(out, "What was done", summary.done(), "Nothing was recorded as done.", most);
    group(out, "What works", summary.works(), "Nothing was tested that would show it.", most);
    group(out, "What was not tested, and why", summary.notTested(), "Nothing was left out.", most);
    out.add(
        Block.Paragraph.small(
            Mark.MEASURED.shape()
                + "\u00a0measured: by an instrument, or computed from its readings.   "
                + Mark.WITNESSED.shape()
                + "\u00a0witnessed: somebody saw, did or read it.   "
                + Mark.ASSUMED.shape()
                + "\u00a0assumed: taken for true, nobody looked."));
    out.add(new Block.PageBreak());
    return out;
  }

  private String whose() {
    List<String> words = new ArrayList<>();
    for (Fact fact : List.of(Fact.CUSTOMER, Fact.PLACE, Fact.SYSTEM)) {
      if (!contents.fact(fact).isEmpty()) {
        words.add(Span.own(contents.fact(fact)));
      }
    }
    words.add(figures.day(contents.madeAt()));
    return String.join(" \u00b7 ", words);
  }

  private static void group(
      List<Block> out, String title, List<Statement> lines, String nothing, int most) {
    out.add(new Block.Heading(2, title));
    if (lines.isEmpty()) {
      out.add(Block.Paragraph.of(nothing));
      return;
    }
    if (lines.size() <= most) {
      out.add(new Block.Statements(lines));
      return;
    }
    out.add(new Block.Statements(lines.subList(0, most)));
    out.add(
        Block.Paragraph.small(
            "and " + (lines.size() - most) + " more, told where they belong below"));
  }
}
