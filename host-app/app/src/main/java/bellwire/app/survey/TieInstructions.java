package bellwire.app.survey;

import bellwire.analysis.ties.Tie;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TiePlans;
import bellwire.analysis.ties.Tolerance;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** A plan of ties in the words of whoever stands at the wall with a handful of clips. */
public final class TieInstructions {
  /** With more conductors it takes too long to go through all faults while somebody waits. */
  private static final int TOLERANCE_CONDUCTORS = 24;

  private TieInstructions() {}

  /** What to do at the far end, a step a line. */
  public static List<String> steps(TiePlan plan) {
    List<String> steps = new ArrayList<>();
    int n = plan.conductors();
    steps.add(
        "Strip a finger's breadth of every conductor and spread them so that no two touch. Tape a number on each, 1 to "
            + n
            + ", from left to right.");
    for (int r = 0; r < plan.rounds().size(); r++) {
      if (r > 0) {
        steps.add(
            "Take off ALL the clips and wait ten seconds with nothing touching, so that the change is seen.");
      }
      int clips = plan.rounds().get(r).size();
      steps.add(
          "Round "
              + (r + 1)
              + ": clip together "
              + pairs(plan.rounds().get(r))
              + (clips == 1 ? " (one clip)" : " (" + clips + " clips)")
              + ". Then hands off, for a minute.");
    }
    steps.add("Take off all the clips. Leave the numbers on.");
    return steps;
  }

  /** "1 and 2, 3 and 4"; metal by its name. */
  public static String pairs(List<Tie> ties) {
    return ties.stream()
        .map(t -> t.a() + " and " + (t.b() == Tie.METAL ? "bare metal" : t.b()))
        .collect(Collectors.joining(", "));
  }

  /** What to know about this plan. */
  public static List<String> notes(TiePlan plan) {
    List<String> notes = new ArrayList<>();
    if (!plan.untied().isEmpty()) {
      notes.add(
          "Number "
              + plan.untied().get(0)
              + " is in no tie: it is known by elimination, and nothing shows that it reaches the far end."
              + TiePlans.everyTied(plan.conductors())
                  .map(
                      p ->
                          " With "
                              + p.ties()
                              + " ties in place of "
                              + plan.ties()
                              + " every conductor is in one: add --all (in a survey, --ties=all).")
                  .orElse(
                      " With "
                          + plan.conductors()
                          + " conductors there is no plan of two rounds without one left over."));
    }
    if (!plan.usesMetal() && plan.conductors() <= TOLERANCE_CONDUCTORS) {
      Tolerance t = Tolerance.of(plan);
      notes.add(
          String.format(
              Locale.ROOT,
              "One broken conductor leaves %.1f of %d undecided on average (%d at worst), two that touch leave %.1f (%d at worst).",
              t.openMean(),
              plan.conductors(),
              t.openWorst(),
              t.shortMean(),
              t.shortWorst()));
    }
    return notes;
  }

  /** Cautions about the copper. */
  public static List<String> copper() {
    return List.of(
        "Use clips. Where you twist, twist lightly: copper that was twisted work-hardens and breaks. Cut it back and strip it"
            + " afresh before it is landed.",
        "Is the slack in the wall short? Then do not twist at all: each cutting back takes two centimetres.",
        "A clip on the wrong number can give a wrong answer that nothing shows. Read each number aloud.");
  }

  /** Why two conductors are not like three. */
  public static List<String> two() {
    return List.of(
        "Two conductors cannot be told apart by joining them to each other: whatever is put between the two looks the same"
            + " when they are exchanged. A resistor is symmetric too.",
        "What serves is a third thing that both ends know: bare metal (the equipment's ground at the far end, or the cable's"
            + " drain), with the M clip on the same metal at the near end. Or a diode, which looks different from its two"
            + " sides; the survey does not read one.");
  }
}
