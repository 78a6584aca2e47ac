package bellwire.app.document;

import bellwire.analysis.landing.Found;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.app.document.ReportContents.Checked;
import bellwire.app.document.ReportContents.Landing;
import bellwire.app.document.block.Block;
import bellwire.app.document.block.Span;
import bellwire.app.drawing.StripsDrawing;
import bellwire.app.drawing.StripsModel;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.report.LandingText;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** Landings before and after, and what each call does under them. */
final class LandingPart {
  private final ReportContents contents;
  private final Figures figures;

  LandingPart(ReportContents contents, Figures figures) {
    this.contents = contents;
    this.figures = figures;
  }

  List<Block> blocks() {
    List<Block> out = new ArrayList<>(List.of(new Block.Heading(1, "Landing")));
    if (contents.landings().isEmpty()) {
      out.add(Block.Paragraph.of("No landing was written down."));
    }
    for (Landing landing : contents.landings()) {
      if (landing.draft().isEmpty()) {
        out.add(Block.Paragraph.of("A landing can't be read: " + landing.trouble()));
        continue;
      }
      LandingDraft draft = landing.draft().get();
      out.add(new Block.Heading(2, draft.landing().title()));
      out.add(
          Block.Paragraph.small(
              "Last changed " + figures.when(landing.row().atUnixMicros()) + "."));
      if (!landing.trouble().isEmpty()) {
        out.add(Block.Paragraph.of("It can't be checked: " + landing.trouble()));
      }
      if (draft.anyLanded(Which.AS_FOUND)) {
        plan(out, draft, Which.AS_FOUND, landing.found());
      }
      if (draft.anyLanded(Which.AS_PLANNED)) {
        plan(out, draft, Which.AS_PLANNED, landing.planned());
      }
    }
    return out;
  }

  private static void plan(
      List<Block> out, LandingDraft draft, Which which, Optional<Checked> checked) {
    boolean found = which == Which.AS_FOUND;
    out.add(new Block.Heading(2, found ? "Before: as found" : "After: as landed"));
    out.add(
        new Block.Figure(
            new StripsDrawing(strips(draft, which, checked)),
            "The equipment's terminals on the left, the control's on the right."));
    LandingPlan plan = draft.plan(which);
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Landed l : plan.landed()) {
      double ohms = draft.landing().cable().conductor(l.conductor()).ohms();
      rows.add(
          List.of(
              Span.list(l.conductor()),
              Span.list(Objects.requireNonNullElse(l.near(), "free")),
              Span.list(Objects.requireNonNullElse(l.far(), "free")),
              Span.list(
                  Double.isInfinite(ohms)
                      ? "broken"
                      : Figures.unparted(LandingText.figure(ohms) + " ohm"))));
    }
    out.add(
        new Block.Table(
            List.of("conductor", "at the equipment", "at the control", "resistance"), rows));
    List<Block.Fact> facts = new ArrayList<>();
    facts.add(Block.Fact.of("equipment", draft.landing().equipment().title()));
    Control control = draft.control(which);
    facts.add(Block.Fact.of("control", control == null ? "not described" : control.title()));
    jumpers(plan).forEach(words -> facts.add(Block.Fact.of("jumper", words)));
    new TreeMap<>(plan.settings())
        .forEach((name, choice) -> facts.add(Block.Fact.of("set, " + name, choice)));
    out.add(new Block.Facts(facts));
    if (checked.isEmpty()) {
      out.add(
          Block.Paragraph.of(
              "What each call does was not computed: the control is not described, or nothing is"
                  + " landed at both ends."));
      return;
    }
    check(out, checked.get());
  }

  static List<String> jumpers(LandingPlan plan) {
    return plan.jumpers().stream()
        .map(
            j ->
                j.a()
                    + " \u2013 "
                    + j.b()
                    + (j.side() == Side.NEAR ? " at the equipment" : " at the control"))
        .sorted()
        .toList();
  }

  private static void check(List<Block> out, Checked checked) {
    out.add(new Block.Heading(3, "What its check finds"));
    List<List<List<Span>>> rows = new ArrayList<>();
    for (Found f : checked.found()) {
      String when =
          f.states().isEmpty() || f.states().size() == checked.states().size()
              ? ""
              : " When: " + String.join("; ", f.states()) + ".";
      String path = f.path().isEmpty() ? "" : " Path: " + String.join(" > ", f.path()) + ".";
      rows.add(
          List.of(
              List.of(
                  Span.bold((f.notice() ? "worth knowing: " : "") + f.kind().title() + ": "),
                  Span.of(f.words() + "." + when + path)),
              Span.list(f.kind().remedy())));
    }
    if (rows.isEmpty()) {
      out.add(
          Block.Paragraph.of("Free of findings, as far as equipment and control are described."));
    } else {
      out.add(new Block.Table(List.of("what was found", "what to do"), rows));
    }
    out.add(new Block.Heading(3, "What each call does"));
    out.add(
        new Block.Table(
            List.of("call", "what it does"),
            checked.states().stream()
                .map(s -> List.of(Span.list(s.state().name()), Span.list(does(s))))
                .toList()));
  }

  private static String does(StateResult state) {
    List<String> parts = new ArrayList<>();
    if (!state.lit()) {
      parts.add("THE CONTROL IS BLANK");
    }
    for (StateResult.LoadResult load : state.loads()) {
      if (load.energised() != Energised.OFF || load.held()) {
        parts.add(LandingText.words(load));
      }
    }
    for (StateResult.FuseResult fuse : state.fuses()) {
      if (fuse.opens().possible()) {
        parts.add(
            fuse.name()
                + " carries "
                + LandingText.figure(fuse.amps())
                + " A: it "
                + fuse.opens().words());
      }
    }
    for (StateResult.TransformerResult t : state.transformers()) {
      if (t.overloaded()) {
        parts.add(
            String.format(
                Locale.ROOT,
                "%s OVERLOADED, %s A of %s A",
                t.transformer().name(),
                LandingText.figure(t.amps()),
                LandingText.figure(t.transformer().ratedAmps())));
      }
    }
    return parts.isEmpty() ? "nothing" : String.join("; ", parts);
  }

  /** As the strips' drawing takes it; what a finding is about is marked. */
  static StripsModel strips(LandingDraft draft, Which which, Optional<Checked> checked) {
    LandingPlan plan = draft.plan(which);
    Set<String> near = new LinkedHashSet<>(draft.terminals(which, Side.NEAR));
    Set<String> far = new LinkedHashSet<>();
    Set<String> used = new LinkedHashSet<>();
    plan.landed().forEach(l -> used.add(Objects.requireNonNullElse(l.far(), "")));
    plan.jumpers().stream()
        .filter(j -> j.side() == Side.FAR)
        .forEach(j -> used.addAll(List.of(j.a(), j.b())));
    boolean described = draft.control(which) != null;
    draft.terminals(which, Side.FAR).stream()
        .filter(t -> described || used.contains(t))
        .forEach(far::add);
    List<StripsModel.Strand> strands = new ArrayList<>();
    for (Landed l : plan.landed()) {
      strands.add(
          new StripsModel.Strand(
              l.conductor(),
              l.conductor(),
              l.conductor(),
              l.near(),
              l.far(),
              draft.landing().cable().conductor(l.conductor()).broken(),
              ""));
    }
    Control control = draft.control(which);
    return new StripsModel(
        draft.landing().equipment().title(),
        control == null ? "old control" : control.title(),
        near.stream().map(t -> new StripsModel.Clamp(t, "")).toList(),
        far.stream().map(t -> new StripsModel.Clamp(t, "")).toList(),
        strands,
        plan.jumpers().stream()
            .map(
                j ->
                    new StripsModel.Jumper(
                        j.side() == Side.NEAR ? StripsModel.Side.NEAR : StripsModel.Side.FAR,
                        j.a(),
                        j.b()))
            .sorted((a, b) -> a.toString().compareTo(b.toString()))
            .toList(),
        Set.of(),
        marks(plan, checked));
  }

  private static List<StripsModel.Mark> marks(LandingPlan plan, Optional<Checked> checked) {
    List<StripsModel.Mark> marks = new ArrayList<>();
    Set<String> seen = new LinkedHashSet<>();
    for (Found f : checked.map(Checked::faults).orElse(List.of())) {
      for (Landed l : plan.landed()) {
        if (f.where().contains(l.conductor()) && seen.add(l.conductor())) {
          marks.add(
              new StripsModel.Mark(
                  StripsModel.strandKey(l.conductor()),
                  Standing.FAULTY,
                  l.conductor() + ": " + f.kind().title()));
        }
      }
    }
    return marks;
  }
}
