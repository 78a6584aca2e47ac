package bellwire.app.document;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.document.page.Composition;
import bellwire.app.document.page.Composition.Running;
import bellwire.app.document.page.Paper;
import bellwire.app.document.type.Typesetter;
import bellwire.app.job.Fact;
import java.util.ArrayList;
import java.util.List;

/** The whole report as blocks, in its order. */
final class Report {
  private final ReportContents contents;
  private final Figures figures;
  private final Typesetter type;

  Report(ReportContents contents, Typesetter type) {
    this.contents = contents;
    this.type = type;
    figures = new Figures(contents.zone(), contents.feet());
  }

  List<Block> blocks() {
    List<Block> all = new ArrayList<>();
    all.addAll(firstPage());
    VisitPart visit = new VisitPart(contents, figures);
    all.addAll(visit.cautions());
    all.addAll(visit.visit());
    all.addAll(visit.acts());
    all.addAll(new CraftPart(contents, figures).blocks());
    all.addAll(new CablePart(contents, figures).blocks());
    all.addAll(new LandingPart(contents, figures).blocks());
    all.addAll(new RehearsalPart(contents, figures).blocks());
    all.addAll(new VigilPart(contents, figures).blocks());
    all.addAll(new OriginPart(contents, figures).blocks());
    return all;
  }

  /** As many lines as one page takes, of either paper; two of each if it must be more than one. */
  private List<Block> firstPage() {
    FirstPage page = new FirstPage(contents, figures);
    for (int most = FirstPage.MOST; ; most--) {
      List<Block> blocks = page.blocks(most);
      // Without the page break at its end, which would be a page of its own here.
      List<Block> alone = blocks.subList(0, blocks.size() - 1);
      boolean fits = true;
      for (Paper paper : Paper.values()) {
        fits &= new Composition(paper, type, running()).sheets(alone).size() == 1;
      }
      if (fits || most <= 2) {
        return blocks;
      }
    }
  }

  String title() {
    String whom = who();
    return whom.isEmpty()
        ? "Report on a control cable and a room control"
        : "Report on a control cable and a room control: " + whom;
  }

  private String who() {
    String customer = Span.own(contents.fact(Fact.CUSTOMER));
    String place = Span.own(contents.fact(Fact.PLACE));
    return customer.isEmpty() || place.isEmpty() ? customer + place : customer + ", " + place;
  }

  Running running() {
    String whom = who();
    return new Running(
        whom.isEmpty() ? String.valueOf(contents.job().getFileName()) : whom,
        figures.day(contents.madeAt()),
        "made with Bellwire " + contents.version());
  }
}
