package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/**
 * Explains symptoms by mistakes. What it simulates it keeps: use one for one installation, by one
 * thread.
 */
public final class Explainer {
  /** A mistake less probable than this is not told, nor searched for (CP). */
  static final double NEGLIGIBLE = 0.001;

  private final Installation intended;
  private final SymptomReader reader;
  private final List<Step> steps;
  private final List<Hypothesis> singles = new ArrayList<>();
  private final List<Hypothesis> pairs = new ArrayList<>();
  private final List<Supposed> simulated = new ArrayList<>();
  private final Set<Installation> seen = new HashSet<>();
  private int nextPair;

  /** Told how far a search is. */
  @FunctionalInterface
  public interface Progress {
    /**
     * @return false to cancel
     */
    boolean goOn(int done, int of);
  }

  /**
   * @param intended as it should be: the landing plan and the settings as planned
   */
  public Explainer(Installation intended) {
    this.intended = intended;
    reader = new SymptomReader(intended);
    steps = Steps.of(intended, reader.possible());
    singles.add(new Hypothesis(List.of()));
    List<Mistake> mistakes = Mistakes.single(intended);
    for (int i = 0; i < mistakes.size(); i++) {
      singles.add(new Hypothesis(List.of(mistakes.get(i))));
      for (int j = i + 1; j < mistakes.size(); j++) {
        pairs.add(new Hypothesis(List.of(mistakes.get(i), mistakes.get(j))));
      }
    }
    pairs.sort(Comparator.comparingDouble(Hypothesis::logPrior).reversed());
  }

  /** Symptoms that this installation can show at all. */
  public Set<Symptom> possible() {
    return reader.possible();
  }

  /** Mistakes that an installation of this kind allows. */
  public int mistakes() {
    return singles.size() - 1;
  }

  /** Pairs of them. */
  public int pairs() {
    return pairs.size();
  }

  /** Pairs simulated so far. */
  public int pairsSimulated() {
    return nextPair;
  }

  /**
   * Weighs every single mistake, and with {@code doubles} every two together.
   *
   * @param told of
   * @param denied looked for, and not there
   * @throws CancellationException where progress says so
   */
  public Dialogue explain(
      Set<Symptom> told, Set<Symptom> denied, boolean doubles, Progress progress) {
    simulateSingles(progress);
    return new Dialogue(this, told, denied, doubles, progress);
  }

  List<Step> steps() {
    return steps;
  }

  Installation intended() {
    return intended;
  }

  /**
   * All that was simulated: nothing wrong, the singles, then pairs in the order of their priors.
   */
  List<Supposed> simulated() {
    return simulated;
  }

  /**
   * Prior of the next pair, logarithm; no later one has more. Minus infinity: all are simulated.
   */
  double nextLogPrior() {
    return nextPair < pairs.size() ? pairs.get(nextPair).logPrior() : Double.NEGATIVE_INFINITY;
  }

  /** Logarithm of the sum of the priors of all pairs not simulated. */
  double logPriorOfTheRest() {
    double sum = 0;
    for (int k = nextPair; k < pairs.size(); k++) {
      sum += Math.exp(pairs.get(k).logPrior());
    }
    return Math.log(sum);
  }

  /** Simulates the next pair; nothing comes of it where it is no other than one known already. */
  @Nullable Supposed simulateNextPair(Progress progress) {
    check(progress, nextPair, pairs.size());
    return simulate(pairs.get(nextPair++));
  }

  private void simulateSingles(Progress progress) {
    while (simulated.size() < singles.size()) {
      int next = simulated.size();
      check(progress, next, singles.size());
      if (simulate(singles.get(next)) == null) {
        throw new IllegalStateException("twice=" + singles.get(next).mistakes());
      }
    }
  }

  private @Nullable Supposed simulate(Hypothesis hypothesis) {
    Installation made = hypothesis.in(intended);
    if (!seen.add(made)) {
      return null;
    }
    Symptoms symptoms = Symptoms.of(reader.read(new Simulation(made)));
    Supposed supposed = new Supposed(hypothesis, made, symptoms);
    simulated.add(supposed);
    return supposed;
  }

  private static void check(Progress progress, int done, int of) {
    if (!progress.goOn(done, of)) {
      throw new CancellationException("done=" + done + ", of=" + of);
    }
  }
}
