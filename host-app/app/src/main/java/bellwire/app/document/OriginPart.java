package bellwire.app.document;

import bellwire.app.document.block.Block;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.survey.BoardSaid;
import java.util.ArrayList;
import java.util.List;

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
    List<Instruments.Used> boards = new Instruments(contents).all();
    if (boards.isEmpty()) {
      facts.add(Block.Fact.of("instrument", "nothing was measured, so none is told of"));
    }
    for (Instruments.Used used : boards) {
      facts.add(Block.Fact.of("instrument", board(used.said()) + ": " + used.measured()));
      facts.add(Block.Fact.of("its self-check", selfCheck(used.said())));
    }
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

  private static String board(BoardSaid said) {
    if (said.simulated()) {
      return "a simulated bench, no board; described as revision " + said.revision();
    }
    return (said.revision().isEmpty()
            ? "sensing board, its revision not told"
            : "sensing board, revision " + said.revision())
        + (said.program().isEmpty()
            ? "; its program not told"
            : "; its program " + Span.own(said.program()));
  }

  private static String selfCheck(BoardSaid said) {
    if (said.selfCheck().isEmpty()) {
      return "not told";
    }
    return said.selfCheck().equals(BoardSaid.PASSED)
        ? "passed, as the board said when it was armed"
        : "the board said: " + Span.own(said.selfCheck());
  }
}
