package bellwire.app.desk.landing;

import bellwire.analysis.landing.Planner;
import bellwire.analysis.landing.Proposal;
import bellwire.analysis.landing.Replacement;
import bellwire.analysis.loop.LandingPlan;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import javax.swing.JButton;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** A landing of the new control with the fewest moves: searched for, shown, taken as one edit. */
final class PlanPanel extends JPanel {
  private final DeskContext ctx;
  private final LandingState state;
  private final Errand errand;
  private final JButton propose = new JButton("Propose a landing");
  private final JButton take = new JButton("Take this plan");
  private final Words words =
      new Words(
          "Searches the landing of the new control that moves the fewest conductors and is free of"
              + " findings. What was found has to be landed under 'As found' first.");
  private @Nullable Replacement asked;
  private @Nullable LandingPlan plan;

  PlanPanel(DeskContext ctx, LandingState state, Errand errand) {
    super(new MigLayout("insets 6, fill, wrap 2", "[][grow]", "[][grow,fill]"));
    this.ctx = ctx;
    this.state = state;
    this.errand = errand;
    propose.setName("landing.propose");
    take.setName("landing.take");
    words.setName("landing.proposal");
    take.setEnabled(false);
    propose.addActionListener(e -> propose());
    take.addActionListener(e -> take());
    JScrollPane below = new JScrollPane(words, 20, 31);
    below.setBorder(null);
    add(propose);
    add(take);
    add(below, "span 2, grow, hmin 80");
    state.listen(this::refresh);
  }

  private static @Nullable Replacement replacement(@Nullable LandingDraft draft) {
    return draft == null
        ? null
        : new Replacement(
            draft.landing().equipment(),
            draft.landing().control(),
            draft.landing().cable(),
            draft.landing().surveyed().doubtful(),
            draft.plan(Which.AS_FOUND));
  }

  private void refresh() {
    if (plan != null && !java.util.Objects.equals(replacement(state.draft()), asked)) {
      plan = null;
      take.setEnabled(false);
      words.setText("What was proposed does not fit any more: ask again.");
    }
  }

  void propose() {
    LandingDraft draft = state.draft();
    Replacement job = replacement(draft);
    if (draft == null || job == null) {
      return;
    }
    if (job.asFound().landed().stream().allMatch(l -> l.near() == null && l.far() == null)) {
      ctx.notices().note("Land what you found first, under 'As found'; then ask for a plan.");
      return;
    }
    propose.setEnabled(false);
    errand.run(
        "a plan for the landing",
        watch ->
            Planner.plan(
                job,
                (moves, schemes) ->
                    watch.at(
                        Double.NaN,
                        schemes + " ways tried, none with fewer than " + moves + " moves")),
        proposal -> proposed(job, proposal),
        () -> propose.setEnabled(true));
  }

  private void proposed(Replacement job, Proposal proposal) {
    propose.setEnabled(true);
    asked = job;
    plan = proposal.plan();
    take.setEnabled(plan != null);
    words.setText(text(proposal));
    words.setCaretPosition(0);
    if (plan != null) {
      take.requestFocusInWindow();
    }
    refresh();
  }

  private void take() {
    LandingDraft draft = state.draft();
    LandingPlan taken = plan;
    if (draft != null && taken != null) {
      state.which(Which.AS_PLANNED);
      state.edit("the proposed landing taken", draft.planned(Which.AS_PLANNED, taken));
    }
  }

  static String text(Proposal p) {
    StringBuilder out = new StringBuilder();
    Proposal.Shortfall shortfall = p.shortfall();
    if (p.plan() == null) {
      out.append("\u25B2 No landing of this control on this cable is free of findings")
          .append(p.proved() ? ".\n" : "; the search was cut short.\n");
      if (shortfall != null) {
        out.append(shortfall.words()).append("\n");
        list(out, "What would do", shortfall.alternatives(), a -> a);
      }
    } else {
      int moves = p.moves().size();
      out.append(moves == 0 ? "Nothing moves" : moves == 1 ? "1 move" : moves + " moves");
      out.append(
          p.proved()
              ? ": no landing free of findings has fewer.\n"
              : "; the search was cut short, so there may be one with fewer.\n");
    }
    list(out, "Moves", p.moves(), Proposal.Move::words);
    list(out, "At the new control", p.changes(), Proposal.Change::words);
    list(
        out,
        "Spares needed",
        p.spares(),
        s -> s.conductor() + ", for " + s.farTerminal() + ": " + s.proof());
    list(out, "Mind", p.remarks(), r -> r);
    list(out, "Worth knowing", p.notices(), f -> f.kind().title() + ": " + f.words());
    list(out, "Colours differ from what is usual", p.disagreements(), d -> d.words());
    return out.toString().stripTrailing();
  }

  private static <T> void list(
      StringBuilder out, String head, List<T> items, Function<T, String> words) {
    if (!items.isEmpty()) {
      out.append("\n").append(head).append("\n");
      List<T> all = new ArrayList<>(items);
      all.forEach(item -> out.append("\u2022 ").append(words.apply(item)).append("\n"));
    }
  }
}
