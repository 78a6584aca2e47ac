package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.Dialogue.Choice;
import bellwire.analysis.landing.Dialogue.Observation;
import bellwire.analysis.landing.Dialogue.Outcome;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Single mistakes of one sample, told of by spoilt symptoms, explained and asked after. */
final class ExplainingRun {
  private static final Explainer.Progress ON = (done, of) -> true;

  /** How the next step is taken. */
  enum Order {
    INFORMATION("most bits for the cost"),
    CHECK_LIST("fixed order, without what can tell nothing"),
    WHOLE_CHECK_LIST("fixed order, everything");

    final String words;

    Order(String words) {
      this.words = words;
    }
  }

  /** Sums over dialogues. */
  static final class Tally {
    int dialogues;
    int right;
    int wrong;
    int steps;
    double cost;

    void add(Tally other) {
      dialogues += other.dialogues;
      right += other.right;
      wrong += other.wrong;
      steps += other.steps;
      cost += other.cost;
    }
  }

  private final Explainer explainer;
  private final List<Supposed> mistakes = new ArrayList<>();
  private final int all;
  private final Random random;

  ExplainingRun(SampleLoops sample, long seed) {
    explainer = new Explainer(sample.healthy());
    random = new Random(seed);
    explainer.explain(Set.of(), Set.of(), false, ON);
    for (Supposed s : explainer.simulated()) {
      if (s.hypothesis().mistakes().size() == 1 && !certain(s).isEmpty()) {
        mistakes.add(s);
      }
    }
    all = explainer.mistakes();
  }

  /** Mistakes that show something for certain. */
  List<Supposed> mistakes() {
    return mistakes;
  }

  int withoutSymptom() {
    return all - mistakes.size();
  }

  int classes() {
    Set<Symptoms> classes = new HashSet<>();
    mistakes.forEach(s -> classes.add(s.symptoms()));
    return classes.size();
  }

  /** Mistakes that another one equals in symptoms and in everything that can be measured. */
  int neverToldApart() {
    int count = 0;
    for (Supposed s : mistakes) {
      boolean lone = mistakes.stream().noneMatch(o -> o != s && o.alike(s, explainer.steps()));
      count += lone ? 0 : 1;
    }
    return count;
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

  /** All that shows but one, where two or more do, and one that does not show. */
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
    return List.copyOf(from).get(random.nextInt(from.size()));
  }

  Dialogue explain(Set<Symptom> told) {
    return explainer.explain(told, Set.of(), true, ON);
  }

  /** Place of the truth, from 0, down the causes, those of equal symptoms counted once. */
  static int placeBySymptoms(Dialogue d, Supposed truth) {
    List<List<Cause>> groups = d.bySymptoms();
    int place = 0;
    while (place < groups.size() && groups.get(place).stream().noneMatch(c -> holds(c, truth))) {
      place++;
    }
    return place;
  }

  /** Place of the truth, from 0, down the causes one by one. */
  static int place(Dialogue d, Supposed truth) {
    int place = 0;
    while (place < d.causes().size() && !holds(d.causes().get(place), truth)) {
      place++;
    }
    return place;
  }

  private static boolean holds(Cause c, Supposed truth) {
    List<Mistake> mistakes = truth.hypothesis().mistakes();
    return c.mistakes().equals(mistakes) || c.alike().contains(mistakes);
  }

  /** A dialogue whose answers are true, to its end. */
  Tally converse(Supposed truth, Set<Symptom> told, Order order) {
    Tally tally = new Tally();
    Dialogue d = explain(told);
    short[] codes = truth.codes(explainer.steps());
    int line = 0;
    while (d.outcome() == Outcome.OPEN && line < explainer.steps().size()) {
      Choice choice =
          switch (order) {
            case INFORMATION -> d.choice();
            case CHECK_LIST -> d.posterior().choices(d.asked()).get(0);
            case WHOLE_CHECK_LIST -> d.posterior().judge(line++);
          };
      int answer = likely(choice, codes[choice.index()]);
      d.observe(new Observation(choice.index(), choice.answers(), answer));
      tally.steps++;
      tally.cost += explainer.steps().get(choice.index()).cost();
    }
    boolean found = d.outcome() == Outcome.FOUND;
    boolean right = place(d, truth) == 0;
    tally.dialogues = 1;
    tally.right = found && right ? 1 : 0;
    tally.wrong = found && !right ? 1 : 0;
    return tally;
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
