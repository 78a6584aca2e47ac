package bellwire.app.document;

import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.document.block.Block;
import bellwire.app.job.Stage;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The cables: what they are, as found and as left. */
final class CablePart {
  private final ReportContents contents;
  private final Figures figures;

  CablePart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  List<Block> blocks() {
    List<Block> out = new ArrayList<>();
    for (Cable cable : contents.cables()) {
      out.add(new Block.Heading(1, Summary.cable(cable)));
      facts(out, cable);
      List<Survey> shown = new ArrayList<>();
      for (Stage stage : Stage.values()) {
        for (boolean inPlace : new boolean[] {true, false}) {
          last(cable, stage, inPlace)
              .ifPresent(
                  survey -> {
                    shown.add(survey);
                    out.add(new Block.Heading(2, title(survey)));
                    out.addAll(new SurveyPart(contents, figures, cable, survey).blocks());
                  });
        }
      }
      if (shown.isEmpty()) {
        out.add(Block.Paragraph.of("It was not surveyed."));
      }
      earlier(out, cable, shown);
    }
    return out;
  }

  private static Optional<Survey> last(Cable cable, Stage stage, boolean inPlace) {
    return cable.surveys().stream()
        .filter(s -> s.row().stage() == stage && s.row().inPlace() == inPlace)
        .reduce((a, b) -> b);
  }

  private String title(Survey survey) {
    return (survey.row().stage() == Stage.AS_FOUND ? "As found" : "As left")
        + (survey.row().inPlace() ? ", conductors still landed" : "")
        + ", surveyed "
        + figures.when(survey.row().atUnixMicros());
  }

  private void facts(List<Block> out, Cable cable) {
    List<Block.Fact> facts = new ArrayList<>();
    fact(facts, "from, the near end", cable.row().nearPlace());
    fact(facts, "to, the far end", cable.row().farPlace());
    fact(facts, "gauge, as told", cable.row().gauge());
    if (!Double.isNaN(cable.row().metres())) {
      fact(facts, "length, as told", figures.told(cable.row().metres()));
    }
    if (!Double.isNaN(cable.row().celsius())) {
      fact(facts, "copper's temperature, taken as", celsius(cable.row().celsius()));
    }
    fact(facts, "note", cable.row().note());
    if (!facts.isEmpty()) {
      out.add(new Block.Facts(facts));
    }
  }

  private static String celsius(double celsius) {
    return Figures.unparted(String.format(Locale.ROOT, "%.1f \u00b0C", celsius));
  }

  private static void fact(List<Block.Fact> facts, String name, String text) {
    if (!text.isEmpty()) {
      facts.add(Block.Fact.of(name, text));
    }
  }

  private void earlier(List<Block> out, Cable cable, List<Survey> shown) {
    List<String> others =
        cable.surveys().stream()
            .filter(s -> !shown.contains(s))
            .map(s -> title(s) + s.sheet().map(x -> ": " + count(x.findings().size())).orElse(""))
            .toList();
    if (!others.isEmpty()) {
      out.add(
          Block.Paragraph.small(
              "Earlier surveys, which later ones took the place of; their figures are in the job"
                  + " file. "
                  + String.join("; ", others)
                  + "."));
    }
  }

  private static String count(int findings) {
    return findings == 0 ? "no finding" : findings == 1 ? "1 finding" : findings + " findings";
  }
}
