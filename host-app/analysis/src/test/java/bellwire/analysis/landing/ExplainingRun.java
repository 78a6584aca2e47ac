package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.Dialogue.Choice;
import bellwire.analysis.landing.Dialogue.Observation;
import bellwire.analysis.landing.Dialogue.Outcome;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Explains the single mistakes of one sample from spoilt symptoms, and counts. */
final class ExplainingRun {
  /** How the next step is taken. */
  enum Order {
    INFORMATION,
    /** Down the check list, leaving out what can tell nothing. */
    CHECK_LIST,
    /** Down the check list, everything. */
    WHOLE_CHECK_LIST
  }

  /**
   * Sums over dialogues.
   *
   * @param firstThree dialogues after whose steps so far the cause was among the first three
   */
  static final class Tally {
    int dialogues;
    int found;
    int wrong;
    int steps;
    double cost;
    int stepsToFirstThree;
  }

  final Explainer explainer;
  final List<Supposed> mistakes = new ArrayList<>();
  final Set<Symptoms> classes = new java.util.HashSet<>();
  int withoutSymptom;
  private final Random random;

  ExplainingRun(SampleLoops sample, long seed) {
    explainer = new Explainer(sample.healthy());
    random = new Random(seed);
    explainer.explain(Set.of(), Set.of(), false, (done, of) -> true);
    for (Supposed s : explainer.simulated()) {
      if (s.hypothesis().mistakes().size() == 1) {
        if (certain(s).isEmpty()) {
          withoutSymptom++;
        } else {
          mistakes.add(s);
          classes.add(s.symptoms());
        }
      }
    }
  }

  static Set<Symptom> certain(Supposed s) {
    return set(s.symptoms().shown() | s.symptoms().implied());
  }

  private static Set<Symptom> set(long bits) {
    Set<Symptom> set = EnumSet.noneOf(Symptom.class);
    for (Symptom s : Symptom.values()) {
      if ((bits & 1L << s.ordinal()) != 0) {
        set.add(s);
      }
    }
    return set;
  }

  /** All symptoms but one, where there are two or more, and one that does not show. */
  Set<Symptom> spoilt(Supposed s) {
    Set<Symptom> told = certain(s);
    if (told.size() > 1) {
      told.remove(drawn(told));
    }
    Set<Symptom> spurious = EnumSet.noneOf(Symptom.class);
    spurious.addAll(explainer.possible());
    spurious.removeAll(certain(s));
    spurious.removeAll(set(s.symptoms().doubtful()));
    if (!spurious.isEmpty()) {
      told.add(drawn(spurious));
    }
    return told;
  }

  private Symptom drawn(Set<Symptom> from) {
    return List.copyOf(EnumSet.copyOf(from)).get(random.nextInt(from.size()));
  }

  Dialogue explain(Set<Symptom> told) {
    return explainer.explain(told, Set.of(), true, (done, of) -> true);
  }

  /** Rank of the truth among groups of equal symptoms, from 0. */
  static int rankBySymptoms(Dialogue d, Supposed truth) {
    List<List<Cause>> groups = d.bySymptoms();
    for (int k = 0; k < groups.size(); k++) {
      if (groups.get(k).stream().anyMatch(c -> holds(c, truth))) {
        return k;
      }
    }
    return groups.size();
  }

  static int rank(Dialogue d, Supposed truth) {
    List<Cause> causes = d.causes();
    for (int k = 0; k < causes.size(); k++) {
      if (holds(causes.get(k), truth)) {
        return k;
      }
    }
    return causes.size();
  }

  static boolean holds(Cause c, Supposed truth) {
    List<Mistake> mistakes = truth.hypothesis().mistakes();
    return c.mistakes().equals(mistakes) || c.alike().contains(mistakes);
  }

  void converse(Supposed truth, Set<Symptom> told, Order order, Tally tally) {
    Dialogue d = explain(told);
    short[] codes = truth.codes(explainer.steps());
    int steps = 0;
    int toFirstThree = rank(d, truth) < 3 ? 0 : -1;
    int line = 0;
    while (d.outcome() == Outcome.OPEN && line < explainer.steps().size()) {
      Choice choice =
          switch (order) {
            case INFORMATION -> d.choice();
            case CHECK_LIST -> d.posterior().choices(d.asked()).get(0);
            case WHOLE_CHECK_LIST -> d.posterior().judge(line++);
          };
      d.observe(
          new Observation(choice.index(), choice.answers(), likely(choice, codes[choice.index()])));
      steps++;
      tally.cost += explainer.steps().get(choice.index()).cost();
      if (toFirstThree < 0 && rank(d, truth) < 3) {
        toFirstThree = steps;
      }
    }
    tally.dialogues++;
    tally.steps += steps;
    tally.stepsToFirstThree += toFirstThree < 0 ? steps : toFirstThree;
    boolean right = rank(d, truth) == 0;
    if (d.outcome() == Outcome.FOUND) {
      tally.found += right ? 1 : 0;
      tally.wrong += right ? 0 : 1;
    }
  }

  private static int likely(Choice choice, int code) {
    int best = 0;
    for (int a = 1; a < choice.answers().words().size(); a++) {
      if (choice.answers().probability(a, code) > choice.answers().probability(best, code)) {
        best = a;
      }
    }
    return best;
  }
}
