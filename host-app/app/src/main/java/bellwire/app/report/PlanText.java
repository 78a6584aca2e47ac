package bellwire.app.report;

import bellwire.analysis.landing.ColourConvention;
import bellwire.analysis.landing.Found;
import bellwire.analysis.landing.Proposal;
import bellwire.analysis.landing.Replacement;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** A proposed landing, for a terminal. */
public final class PlanText {
  private static final String FREE = "free, capped";

  private PlanText() {}

  public static List<String> lines(Replacement replacement, Proposal proposal) {
    List<String> out = new ArrayList<>();
    LandingPlan plan = proposal.plan();
    if (plan == null) {
      shortfall(out, proposal);
    } else {
      landing(out, replacement, plan, proposal);
    }
    if (!proposal.remarks().isEmpty()) {
      out.add("");
      out.add("MIND");
      proposal.remarks().forEach(r -> out.addAll(Paragraph.hanging("  - ", r)));
    }
    colours(out, proposal.disagreements(), plan != null);
    if (plan != null) {
      out.add("");
      out.addAll(
          Paragraph.hanging(
              "",
              "The plan is computed from what was described and surveyed: land with everything off, check every conductor at"
                  + " both ends against it, then 'bellwire landing check'."));
    }
    return out;
  }

  private static void landing(
      List<String> out, Replacement replacement, LandingPlan plan, Proposal proposal) {
    int moves = proposal.moves().size();
    String count = moves == 0 ? "nothing moves" : moves == 1 ? "1 move" : moves + " moves";
    String proof =
        proposal.proved()
            ? "; no landing free of findings has fewer"
            : "; the search was cut short, so there may be one with fewer";
    out.addAll(Paragraph.hanging("PLAN   ", count + proof));
    out.addAll(table(replacement, plan));
    if (moves > 0) {
      out.add("");
      out.add("MOVES");
      for (Proposal.Move move : proposal.moves()) {
        out.addAll(Paragraph.hanging("  - ", move.words()));
      }
    }
    if (!proposal.changes().isEmpty()) {
      out.add("");
      out.add("AT THE NEW CONTROL");
      proposal.changes().forEach(c -> out.addAll(Paragraph.hanging("  - ", c.words())));
    }
    if (!proposal.spares().isEmpty()) {
      out.add("");
      out.add("SPARES NEEDED");
      for (Proposal.Spare spare : proposal.spares()) {
        out.addAll(
            Paragraph.hanging(
                "  - ", spare.conductor() + ", for " + spare.farTerminal() + ": " + spare.proof()));
      }
    }
    if (!proposal.notices().isEmpty()) {
      out.add("");
      out.add("WORTH KNOWING");
      for (Found f : proposal.notices()) {
        out.addAll(Paragraph.hanging("  - ", f.kind().title() + ": " + f.words()));
      }
    }
  }

  private static List<String> table(Replacement replacement, LandingPlan plan) {
    List<String[]> rows = new ArrayList<>();
    rows.add(new String[] {"conductor", "at the equipment", "at the new control", "as found"});
    for (Landed now : plan.landed()) {
      Landed was = found(replacement, now.conductor());
      rows.add(
          new String[] {
            now.conductor(),
            named(now.near()),
            named(now.far()),
            was.near() == null && was.far() == null
                ? "spare"
                : end(was.near()) + " to " + end(was.far())
          });
    }
    int[] width = new int[rows.get(0).length];
    for (String[] row : rows) {
      for (int i = 0; i < row.length; i++) {
        width[i] = Math.max(width[i], row[i].length());
      }
    }
    List<String> lines = new ArrayList<>();
    for (String[] row : rows) {
      StringBuilder line = new StringBuilder("  ");
      for (int i = 0; i < row.length; i++) {
        line.append(String.format(Locale.ROOT, "%-" + (width[i] + 2) + "s", row[i]));
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }

  private static Landed found(Replacement replacement, String conductor) {
    return replacement.asFound().landed().stream()
        .filter(l -> l.conductor().equals(conductor))
        .findFirst()
        .orElse(new Landed(conductor, null, null));
  }

  private static String named(@Nullable String terminal) {
    return terminal == null ? FREE : terminal;
  }

  private static String end(@Nullable String terminal) {
    return terminal == null ? "free" : terminal;
  }

  private static void shortfall(List<String> out, Proposal proposal) {
    Proposal.Shortfall shortfall = proposal.shortfall();
    out.addAll(
        Paragraph.hanging(
            "PLAN   ",
            "none"
                + (proposal.proved()
                    ? ": no landing of this control on this cable is free of findings"
                    : " found, and the search was cut short")));
    if (shortfall == null) {
      return;
    }
    out.addAll(Paragraph.hanging("  ! ", shortfall.words()));
    if (!shortfall.alternatives().isEmpty()) {
      out.add("");
      out.add("WHAT WOULD DO");
      shortfall.alternatives().forEach(a -> out.addAll(Paragraph.hanging("  - ", a)));
    }
  }

  private static void colours(
      List<String> out, List<ColourConvention.Disagreement> disagreements, boolean planned) {
    if (disagreements.isEmpty()) {
      return;
    }
    out.add("");
    out.add("COLOURS   as is usual in the trade they are a hint, and here they differ");
    for (ColourConvention.Disagreement d : disagreements) {
      out.addAll(Paragraph.hanging("  - ", d.words() + (planned ? "" : " (as found)")));
    }
  }
}
