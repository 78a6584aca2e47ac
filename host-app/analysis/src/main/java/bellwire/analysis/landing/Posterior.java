package bellwire.analysis.landing;

import bellwire.analysis.landing.Dialogue.Choice;
import bellwire.analysis.landing.Dialogue.Observation;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** How probable each hypothesis is after what was told and answered. */
final class Posterior {
  /** Hypotheses weighed with all answers; the least probable beyond these are not considered. */
  private static final int MOST_CONSIDERED = 3000;

  /** Below this share of the whole a hypothesis plays no part in causes and questions (CP). */
  private static final double FAINT = 1e-4;

  /** No live step in a state that is as probable as this to open a fuse or heat a transformer. */
  private static final double RISKY = 0.05;

  private final Explainer explainer;
  private final Symptoms.Told told;
  private final List<Weighed> considered;
  private final Map<Cause, Symptoms> symptoms = new HashMap<>();
  private final List<Cause> causes;
  private final double logTotal;
  private final double leftOut;

  private record Weighed(Supposed supposed, double probability) {}

  private record Scored(Supposed supposed, double logWeight) {}

  private Posterior(
      Explainer explainer,
      Symptoms.Told told,
      List<Weighed> considered,
      double logTotal,
      double logRest) {
    this.explainer = explainer;
    this.told = told;
    this.considered = considered;
    this.logTotal = logTotal;
    leftOut = Math.exp(logRest - logSum(logRest, logTotal));
    causes = grouped();
  }

  /** Theory (81), (85): every hypothesis that can have a share of one in a thousand. */
  static Posterior of(
      Explainer explainer,
      Symptoms.Told told,
      List<Observation> answered,
      boolean doubles,
      Explainer.Progress progress) {
    double least = Math.log(Explainer.NEGLIGIBLE);
    List<Scored> waiting = new ArrayList<>();
    for (Supposed s : explainer.simulated()) {
      if (doubles || s.hypothesis().mistakes().size() < 2) {
        waiting.add(new Scored(s, toldWeight(s, told)));
      }
    }
    waiting.sort(Comparator.comparingDouble(Scored::logWeight).reversed());
    List<Scored> weighed = new ArrayList<>();
    double total = Double.NEGATIVE_INFINITY;
    int next = 0;
    while (next < waiting.size()
        && weighed.size() < MOST_CONSIDERED
        && waiting.get(next).logWeight() >= least + total) {
      Scored now = withAnswers(explainer, waiting.get(next++), answered);
      weighed.add(now);
      total = logSum(total, now.logWeight());
    }
    double bound = told.logBound();
    while (doubles
        && weighed.size() < MOST_CONSIDERED
        && explainer.nextLogPrior() + bound >= least + total) {
      Supposed pair = explainer.simulateNextPair(progress);
      if (pair != null && toldWeight(pair, told) >= least + total) {
        Scored now = withAnswers(explainer, new Scored(pair, toldWeight(pair, told)), answered);
        weighed.add(now);
        total = logSum(total, now.logWeight());
      }
    }
    double rest = doubles ? explainer.logPriorOfTheRest() + bound : Double.NEGATIVE_INFINITY;
    for (; next < waiting.size(); next++) {
      rest = logSum(rest, waiting.get(next).logWeight());
    }
    return new Posterior(explainer, told, shares(weighed, total), total, rest);
  }

  private static double toldWeight(Supposed s, Symptoms.Told told) {
    return s.hypothesis().logPrior() + told.logLikelihood(s.symptoms());
  }

  private static Scored withAnswers(Explainer explainer, Scored s, List<Observation> answered) {
    double log = s.logWeight();
    for (Observation o : answered) {
      int code = s.supposed().codes(explainer.steps())[o.index()];
      log += Math.log(o.answers().probability(o.answer(), code));
    }
    return new Scored(s.supposed(), log);
  }

  private static double logSum(double a, double b) {
    double high = Math.max(a, b);
    return high == Double.NEGATIVE_INFINITY
        ? high
        : high + Math.log(Math.exp(a - high) + Math.exp(b - high));
  }

  private static List<Weighed> shares(List<Scored> weighed, double total) {
    return weighed.stream()
        .map(s -> new Weighed(s.supposed(), Math.exp(s.logWeight() - total)))
        .filter(w -> w.probability() >= FAINT)
        .sorted(Comparator.comparingDouble(Weighed::probability).reversed())
        .toList();
  }

  /** Most probable first; what no step tells apart is one cause. */
  private List<Cause> grouped() {
    List<Step> steps = explainer.steps();
    List<List<Weighed>> groups = new ArrayList<>();
    for (Weighed w : considered) {
      groups.stream()
          .filter(g -> g.get(0).supposed().alike(w.supposed(), steps))
          .findFirst()
          .ifPresentOrElse(g -> g.add(w), () -> groups.add(new ArrayList<>(List.of(w))));
    }
    List<Cause> found = new ArrayList<>();
    for (List<Weighed> group : groups) {
      Cause cause =
          new Cause(
              mistakes(group.get(0)),
              group.stream().mapToDouble(Weighed::probability).sum(),
              group.stream().skip(1).map(Posterior::mistakes).toList());
      symptoms.put(cause, group.get(0).supposed().symptoms());
      found.add(cause);
    }
    found.sort(Comparator.comparingDouble(Cause::probability).reversed());
    return found;
  }

  /** The causes that show something, those of equal symptoms together, by their most probable. */
  List<List<Cause>> bySymptoms() {
    Map<Symptoms, List<Cause>> groups = new LinkedHashMap<>();
    for (Cause cause : causes) {
      Symptoms shown = symptoms.getOrDefault(cause, Symptoms.NONE);
      if (!shown.equals(Symptoms.NONE)) {
        groups.computeIfAbsent(shown, s -> new ArrayList<>()).add(cause);
      }
    }
    return List.copyOf(groups.values());
  }

  /** Probability of all that shows nothing. */
  double unexplained() {
    return causes.stream()
        .filter(c -> Symptoms.NONE.equals(symptoms.get(c)))
        .mapToDouble(Cause::probability)
        .sum();
  }

  private static List<Mistake> mistakes(Weighed w) {
    return w.supposed().hypothesis().mistakes();
  }

  List<Cause> causes() {
    return causes;
  }

  /** Logarithm of the weight of all that was weighed. */
  double logTotal() {
    return logTotal;
  }

  /** What was not weighed can have at most, as a share of all, theory (86). */
  double leftOut() {
    return leftOut;
  }

  /** The step that tells most for its cost; null where none tells enough. Theory (84). */
  @Nullable Choice choose(Set<Integer> asked) {
    Choice best = null;
    double mostPerCost = 0;
    for (Choice choice : choices(asked)) {
      double perCost = choice.bits() / explainer.steps().get(choice.index()).cost();
      if (perCost > mostPerCost) {
        best = choice;
        mostPerCost = perCost;
      }
    }
    return best;
  }

  /** Every step that tells enough, in the order of the check list. */
  List<Choice> choices(Set<Integer> asked) {
    List<Choice> choices = new ArrayList<>();
    List<Step> steps = explainer.steps();
    for (int k = 0; k < steps.size(); k++) {
      if (!asked.contains(k) && allowed(steps.get(k))) {
        Choice choice = judge(k);
        if (choice.bits() >= Dialogue.LEAST_BITS) {
          choices.add(choice);
        }
      }
    }
    return choices;
  }

  private boolean allowed(Step step) {
    if (step instanceof Asking a && (told.known() & a.bit()) != 0) {
      return false;
    }
    long live = step.live();
    return live == 0 || ((live & told.barred()) == 0 && !risky(live));
  }

  private boolean risky(long live) {
    double probability = 0;
    for (Weighed w : considered) {
      probability += w.supposed().hazardous(live) ? w.probability() : 0;
    }
    return probability >= RISKY;
  }

  /** The step as a question, with its expected information in bits. */
  Choice judge(int index) {
    Map<Integer, Double> byCode = new TreeMap<>();
    double sum = 0;
    for (Weighed w : considered) {
      int code = w.supposed().codes(explainer.steps())[index];
      byCode.merge(code, w.probability(), Double::sum);
      sum += w.probability();
    }
    Step.Answers answers = explainer.steps().get(index).answers(byCode.keySet());
    double[] shares = new double[byCode.size()];
    double[][] probabilities = new double[byCode.size()][answers.words().size()];
    int k = 0;
    for (Map.Entry<Integer, Double> e : byCode.entrySet()) {
      shares[k] = e.getValue() / sum;
      for (int answer = 0; answer < probabilities[k].length; answer++) {
        probabilities[k][answer] = answers.probability(answer, e.getKey());
      }
      k++;
    }
    return new Choice(index, answers, Information.expected(shares, probabilities));
  }
}
