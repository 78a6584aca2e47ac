package bellwire.app.desk.landing;

import bellwire.analysis.landing.Found;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point;
import bellwire.app.drawing.StripsModel;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** A landing as the two strips show it. */
final class StripsOf {
  private StripsOf() {}

  static StripsModel.Side side(Point.Side side) {
    return side == Point.Side.NEAR ? StripsModel.Side.NEAR : StripsModel.Side.FAR;
  }

  static StripsModel model(
      LandingDraft draft, Which which, Set<String> lit, @Nullable Checked checked) {
    return new StripsModel(
        draft.landing().equipment().title(),
        title(draft, which),
        clamps(draft, which, Point.Side.NEAR),
        clamps(draft, which, Point.Side.FAR),
        strands(draft, which),
        draft.plan(which).jumpers().stream()
            .map(j -> new StripsModel.Jumper(side(j.side()), j.a(), j.b()))
            .sorted((a, b) -> a.toString().compareTo(b.toString()))
            .toList(),
        lit,
        checked == null ? List.of() : marks(draft, which, checked.found()));
  }

  private static String title(LandingDraft draft, Which which) {
    Control control = draft.control(which);
    return control == null ? "old control, not described" : control.title();
  }

  private static List<StripsModel.Clamp> clamps(LandingDraft draft, Which which, Point.Side side) {
    return draft.terminals(which, side).stream()
        .map(letter -> new StripsModel.Clamp(letter, ""))
        .toList();
  }

  private static List<StripsModel.Strand> strands(LandingDraft draft, Which which) {
    List<StripsModel.Strand> strands = new ArrayList<>();
    Cable cable = draft.landing().cable();
    for (Landed l : draft.plan(which).landed()) {
      Cable.Conductor c = cable.conductor(l.conductor());
      strands.add(
          new StripsModel.Strand(
              c.name(),
              c.nearColour() == null ? c.name() : c.nearColour(),
              c.farColour() == null ? c.nearColour() : c.farColour(),
              l.near(),
              l.far(),
              c.broken(),
              words(draft, c)));
    }
    return strands;
  }

  /** What the survey says of a conductor. */
  static String words(LandingDraft draft, Cable.Conductor c) {
    String doubt = draft.landing().surveyed().doubtful().get(c.name());
    if (c.broken()) {
      return String.format(
          Locale.ROOT, "broken at %.0f %% of the run from the equipment", c.brokenAt() * 100);
    }
    String ohms =
        String.format(Locale.ROOT, "%.2f ohm", c.ohms()) + (c.uOhms() > 0 ? "" : ", assumed");
    return doubt == null ? ohms : ohms + ", " + doubt;
  }

  private static List<StripsModel.Mark> marks(LandingDraft draft, Which which, List<Found> found) {
    List<StripsModel.Mark> marks = new ArrayList<>();
    PathKeys keys = new PathKeys(draft, which);
    for (Found f : found) {
      for (String key : keys.of(f.where())) {
        marks.add(
            new StripsModel.Mark(
                key,
                f.notice() ? Standing.UNDECIDED : Standing.FAULTY,
                name(key) + ": " + f.kind().title()));
      }
    }
    return marks;
  }

  /** Of a key, what it is the key of. */
  private static String name(String key) {
    return key.substring(key.lastIndexOf(':') + 1);
  }
}
