package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.jspecify.annotations.Nullable;

/** Questions and answers that narrow the causes down. Mutable, for one thread. */
public final class Dialogue {
  /** Probability from which a cause is taken to be found (CP). */
  static final double FOUND = 0.9;

  /** A question that is expected to tell less, in bits, is not asked (CP). */
  static final double LEAST_BITS = 0.02;

  private static final int MOST_CAUSES = 30;

  /** How far it is. */
  public enum Outcome {
    /** There is a next question. */
    OPEN,
    /** One cause is left, or several that nothing tells apart. */
    FOUND,
    /** No further question known here tells what is left apart. */
    UNDECIDED
  }

  /**
   * The next step.
   *
   * @param bits information expected of it, theory (84)
   */
  public record Question(Measurement measurement, double bits) {}

  /**
   * What was asked.
   *
   * @param answer in words; null for 'don't know'
   */
  public record Answered(Measurement measurement, @Nullable String answer) {}

  private final Explainer explainer;
  private final long seen;
  private final long notSeen;
  private final boolean doubles;
  private final Explainer.Progress progress;
  private final List<Observation> observations = new ArrayList<>();
  private Posterior posterior;
  private @Nullable Choice next;

  /**
   * @param index of the step
   * @param answer index; -1 for 'don't know'
   */
  record Observation(int index, Step.Answers answers, int answer) {}

  record Choice(int index, Step.Answers answers, double bits) {}

  Dialogue(
      Explainer explainer,
      Set<Symptom> told,
      Set<Symptom> denied,
      boolean doubles,
      Explainer.Progress progress) {
    this.explainer = explainer;
    this.seen = Symptoms.bits(told);
    this.notSeen = Symptoms.bits(denied);
    this.doubles = doubles;
    this.progress = progress;
    posterior = weigh();
    next = posterior.choose(asked());
  }

  /** Most probable first; those below one in a thousand are left out. */
  public List<Cause> causes() {
    return posterior.causes().stream()
        .filter(c -> c.probability() >= Explainer.NEGLIGIBLE)
        .limit(MOST_CAUSES)
        .toList();
  }

  /**
   * The same causes, those together that show the same symptoms: by symptoms alone nothing tells
   * them apart. Most probable first; without those that show nothing.
   */
  public List<List<Cause>> bySymptoms() {
    return posterior.bySymptoms();
  }

  /**
   * Probability that nothing in the loop explains what was told: nothing is wrong in it, or what is
   * wrong shows nothing.
   */
  public double unexplained() {
    return posterior.unexplained();
  }

  public Outcome outcome() {
    if (posterior.causes().get(0).probability() >= FOUND) {
      return Outcome.FOUND;
    }
    return next == null ? Outcome.UNDECIDED : Outcome.OPEN;
  }

  /** The next question; null unless the outcome is OPEN. */
  public @Nullable Question next() {
    Choice choice = next;
    if (choice == null || outcome() != Outcome.OPEN) {
      return null;
    }
    Step step = explainer.steps().get(choice.index());
    return new Question(step.measurement(choice.answers()), choice.bits());
  }

  /** Everything asked so far, in order. */
  public List<Answered> answered() {
    return observations.stream()
        .map(
            o ->
                new Answered(
                    explainer.steps().get(o.index()).measurement(o.answers()),
                    o.answer() < 0 ? null : o.answers().words().get(o.answer())))
        .toList();
  }

  /**
   * Answers the next question.
   *
   * @param answer index into the measurement's answers
   */
  public void answer(int answer) {
    Choice choice = next;
    if (choice == null || answer < 0 || answer >= choice.answers().words().size()) {
      throw new IllegalArgumentException("answer=" + answer);
    }
    observe(new Observation(choice.index(), choice.answers(), answer));
  }

  /** The next question can't be answered: it isn't asked again. */
  public void dontKnow() {
    Choice choice = next;
    if (choice == null) {
      throw new IllegalStateException("outcome=" + outcome());
    }
    observe(new Observation(choice.index(), choice.answers(), -1));
  }

  /** Takes back the last answer or 'don't know'; nothing happens where there is none. */
  public void undo() {
    if (!observations.isEmpty()) {
      observations.remove(observations.size() - 1);
      posterior = weigh();
      next = posterior.choose(asked());
    }
  }

  void observe(Observation observation) {
    observations.add(observation);
    try {
      posterior = weigh();
      next = posterior.choose(asked());
    } catch (CancellationException e) {
      observations.remove(observations.size() - 1);
      throw e;
    }
  }

  Posterior posterior() {
    return posterior;
  }

  @Nullable Choice choice() {
    return next;
  }

  Set<Integer> asked() {
    Set<Integer> asked = new HashSet<>();
    observations.forEach(o -> asked.add(o.index()));
    return asked;
  }

  private Posterior weigh() {
    long askedFor = 0;
    long confirmed = 0;
    List<Observation> answered = new ArrayList<>();
    for (Observation o : observations) {
      if (o.answer() >= 0) {
        answered.add(o);
        if (explainer.steps().get(o.index()) instanceof Asking a) {
          askedFor |= a.bit();
          confirmed |= o.answer() == Asking.YES ? a.bit() : 0;
        }
      }
    }
    var states = explainer.intended().control().states();
    var told =
        new Symptoms.Told(
            Symptoms.bits(explainer.possible()),
            seen,
            notSeen,
            askedFor,
            confirmed,
            Trials.barred(seen | confirmed, states));
    return Posterior.of(explainer, told, answered, doubles, progress);
  }
}
