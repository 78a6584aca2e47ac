package bellwire.app.document;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.job.Act;
import bellwire.app.job.Fact;
import bellwire.app.report.Cautions;
import java.util.ArrayList;
import java.util.List;

/** Cautions, who and where, and the acts for safety's sake. */
final class VisitPart {
  private final ReportContents contents;
  private final Figures figures;

  VisitPart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  List<Block> cautions() {
    List<String> lines = new ArrayList<>(Cautions.lines());
    lines.add(
        "This report says what was seen on the day. It replaces no inspection that the local codes"
            + " ask for, and no work by those who hold a licence for it.");
    return List.of(
        new Block.Heading(1, "Cautions"),
        new Block.Cautions("Before anybody works on this wiring", lines));
  }

  List<Block> visit() {
    List<Block.Fact> facts = new ArrayList<>();
    for (Fact fact : Fact.values()) {
      String told = contents.fact(fact);
      if (!told.isEmpty() && !name(fact).isEmpty()) {
        facts.add(Block.Fact.of(name(fact), told));
      }
    }
    List<Block> out = new ArrayList<>(List.of(new Block.Heading(1, "The visit")));
    if (facts.isEmpty()) {
      out.add(Block.Paragraph.of("Nothing was written down of customer and place."));
    } else {
      out.add(new Block.Facts(facts));
    }
    return out;
  }

  private static String name(Fact fact) {
    return switch (fact) {
      case CUSTOMER -> "customer";
      case PLACE -> "place";
      case TECHNICIAN -> "technician";
      case SYSTEM -> "system";
      case OLD_CONTROL -> "old control";
      case NEW_CONTROL -> "new control";
      case REASON -> "reason of the visit";
      case NOTES -> "notes";
      case MAINS_HERTZ -> "mains, Hz";
      case UNITS, SUMMARY -> "";
    };
  }

  List<Block> acts() {
    List<Block> out = new ArrayList<>();
    out.add(new Block.Heading(1, "Switched off, proved dead, switched on"));
    if (contents.acts().isEmpty()) {
      out.add(
          Block.Paragraph.of(
              "Nothing was recorded: not which supply was switched off, nor that the cable was"
                  + " proved dead."));
      return out;
    }
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Act act : contents.acts()) {
      rows.add(
          List.of(
              cell(act, figures.when(act.atUnixMicros())),
              cell(act, words(act.kind())),
              cell(act, act.what()),
              cell(act, act.reading()),
              cell(act, act.by())));
    }
    out.add(new Block.Table(List.of("when", "act", "what", "reading", "by"), rows));
    if (contents.acts().stream().anyMatch(Act::withdrawn)) {
      out.add(
          Block.Paragraph.small(
              "Struck through: recorded by mistake, withdrawn, and kept to be read."));
    }
    return out;
  }

  private static List<Span> cell(Act act, String text) {
    boolean isKind = act.withdrawn() && text.equals(words(act.kind()));
    return act.withdrawn()
        ? List.of(Span.struck(text), Span.faint(isKind ? " withdrawn" : ""))
        : Span.list(text);
  }

  static String words(Act.Kind kind) {
    return switch (kind) {
      case CAUTIONS_READ -> "cautions read";
      case SWITCHED_OFF -> "switched off";
      case PROVED_DEAD -> "proved dead";
      case CLIPPED_TO_METAL -> "clip on bare metal";
      case SWITCHED_ON -> "switched on";
      case FUSE_REPLACED -> "fuse replaced";
    };
  }
}
