package bellwire.app.document;

import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.block.Block;
import bellwire.app.document.block.Mark;
import bellwire.app.sheet.SurveySheet;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** What the report was made with and of, and how it is read. */
final class OriginPart {
  private final ReportContents contents;
  private final Figures figures;

  OriginPart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  List<Block> blocks() {
    List<Block> out = new ArrayList<>();
    out.add(new Block.Heading(1, "Instrument and software"));
    List<Block.Fact> facts = new ArrayList<>();
    Set<String> boards = new LinkedHashSet<>();
    for (Cable cable : contents.cables()) {
      for (Survey survey : cable.surveys()) {
        survey.sheet().map(OriginPart::board).ifPresent(boards::add);
      }
    }
    boards.forEach(words -> facts.add(Block.Fact.of("instrument", words)));
    facts.add(
        Block.Fact.of(
            "self-check",
            boards.isEmpty()
                ? "no survey, so none is told of"
                : "passed before each survey that has a result: the board connects nothing"
                    + " without"));
    facts.add(Block.Fact.of("software", "Bellwire " + contents.version()));
    facts.add(Block.Fact.of("report made", figures.when(contents.madeAt().toEpochMilli() * 1000)));
    facts.add(Block.Fact.of("job file", String.valueOf(contents.job().getFileName())));
    out.add(new Block.Facts(facts));
    out.add(
        Block.Paragraph.small(
            "The job's digest, SHA-256:\n"
                + (contents.digest().isEmpty() ? "could not be computed" : contents.digest())));
    contents.troubles().forEach(words -> out.add(Block.Paragraph.of(words)));
    out.add(new Block.Heading(1, "How to read this report"));
    out.add(
        new Block.Statements(
            List.of(
                Block.Statement.of(
                    Mark.MEASURED,
                    "An instrument read it, or it was computed from what the instrument read."),
                Block.Statement.of(
                    Mark.WITNESSED, "A person saw it, did it or read it, and says so."),
                Block.Statement.of(Mark.ASSUMED, "It was taken for true, and nobody looked."),
                Block.Statement.of(
                    Mark.NOT_TESTED, "It was not looked at, for the reason given."))));
    out.add(
        Block.Paragraph.of(
            "In tables, a figure after \u00b1 is the expanded uncertainty U = k\u00b7u with k = 2:"
                + " the true value lies within it in about 95 of 100 cases (GUM, JCGM 100:2008,"
                + " 6.3.3). In sentences that the survey wrote it is the standard uncertainty, k ="
                + " 1. 'Above' means that at least so much is certain. Undecided means that the"
                + " uncertainty leaves both verdicts open."));
    out.add(
        Block.Paragraph.of(
            "Near end: where the equipment is. Far end: where the room control hangs. P1 to P16:"
                + " the instrument's terminals. M: the clip for bare metal."));
    return out;
  }

  private static String board(SurveySheet sheet) {
    return "sensing board, revision " + sheet.revision() + "; its program " + sheet.agentVersion();
  }
}
