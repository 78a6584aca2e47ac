package bellwire.app.desk.landing;

import bellwire.analysis.landing.Cause;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Measurement;
import bellwire.app.report.CauseGroups;

/** Causes and the next step, for reading. */
final class CausesText {
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
    CauseGroups told = CauseGroups.of(dialogue);
    told.groups().forEach(group -> group(out, group));
    if (told.lessLikely() > 0) {
      out.append("and " + told.lessLikely() + " less likely\n");
    }
    if (!told.unexplained().isEmpty()) {
      out.append("\u2022 " + told.unexplained())
          .append("  nothing in the low-voltage loop explains it\n");
    }
    if (!dialogue.causes().isEmpty()) {
      out.append("\nWhat to do for the first: ").append(dialogue.causes().get(0).remedy());
    }
    return out.toString();
  }

  private static void group(StringBuilder out, CauseGroups.Group group) {
    String lead = "\u2022 " + group.share() + "  ";
    for (Cause cause : group.shown()) {
      out.append(lead).append(cause.words()).append("\n");
      lead = "      or ";
      if (!cause.alike().isEmpty()) {
        out.append("      or, with no measurement that tells: ")
            .append(CauseGroups.alike(cause))
            .append("\n");
      }
    }
    if (group.more() > 0) {
      out.append("      " + group.moreWords() + "\n");
    }
  }
}
