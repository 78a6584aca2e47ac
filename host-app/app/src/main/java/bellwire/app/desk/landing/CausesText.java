package bellwire.app.desk.landing;

import bellwire.analysis.landing.Cause;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Measurement;
import bellwire.app.report.Share;
import java.util.List;

/** Causes and the next step, for reading. */
final class CausesText {
  private static final int GROUPS = 3;
  private static final int SHOWN = 3;

  private CausesText() {}

  static String of(Dialogue dialogue) {
    StringBuilder out = new StringBuilder();
    Dialogue.Question question = dialogue.next();
    if (question != null) {
      Measurement m = question.measurement();
      out.append(m.live() ? "\u25B2 NEXT, LIVE: " + m.caution() + " " : "NEXT: ")
          .append(m.words())
          .append("\n\n");
    }
    switch (dialogue.outcome()) {
      case FOUND -> out.append("One cause is left, as good as certain.\n");
      case UNDECIDED -> out.append("What is left can't be told apart by a look or a meter.\n");
      case OPEN -> out.append("Causes, the likeliest first:\n");
    }
    List<List<Cause>> groups = dialogue.bySymptoms();
    for (List<Cause> group : groups.subList(0, Math.min(GROUPS, groups.size()))) {
      group(out, group);
    }
    if (dialogue.unexplained() >= 0.01 || groups.isEmpty()) {
      out.append("\u2022 " + Share.words(dialogue.unexplained()))
          .append("  nothing in the low-voltage loop explains it\n");
    }
    if (!dialogue.causes().isEmpty()) {
      out.append("\nWhat to do for the first: ").append(dialogue.causes().get(0).remedy());
    }
    return out.toString();
  }

  private static void group(StringBuilder out, List<Cause> group) {
    double share = group.stream().mapToDouble(Cause::probability).sum();
    String lead = "\u2022 " + Share.words(share) + "  ";
    for (Cause cause : group.subList(0, Math.min(SHOWN, group.size()))) {
      out.append(lead).append(cause.words()).append("\n");
      lead = "      or ";
    }
    if (group.size() > SHOWN) {
      out.append("      or " + (group.size() - SHOWN) + " more that would show the same\n");
    }
  }
}
