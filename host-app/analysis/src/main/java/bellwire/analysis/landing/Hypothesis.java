package bellwire.analysis.landing;

import bellwire.analysis.loop.Installation;
import java.util.List;

/** Mistakes supposed to have been made together: none, one or two. Theory (80). */
final class Hypothesis {
  private final List<Mistake> mistakes;
  private final double logPrior;

  Hypothesis(List<Mistake> mistakes) {
    this.mistakes = List.copyOf(mistakes);
    double sum = 0;
    for (Mistake m : mistakes) {
      sum += Math.log(m.prior() / (1 - m.prior()));
    }
    logPrior = sum;
  }

  List<Mistake> mistakes() {
    return mistakes;
  }

  /** Relative to nothing wrong. */
  double logPrior() {
    return logPrior;
  }

  Installation in(Installation intended) {
    Installation made = intended;
    for (Mistake m : mistakes) {
      made = m.in(made);
    }
    return made;
  }
}
