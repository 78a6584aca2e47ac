package bellwire.analysis.landing;

import java.util.List;
import java.util.Set;
import java.util.function.ToIntFunction;

/** A dead look with fixed answers. The code is the right answer's index. */
final class Looking extends Step {
  private static final double ERROR = 0.02;

  private final List<String> answers;
  private final ToIntFunction<Case> index;

  Looking(String words, double cost, List<String> answers, ToIntFunction<Case> index) {
    super(words, "", cost);
    this.answers = List.copyOf(answers);
    this.index = index;
  }

  @Override
  int code(Case c) {
    return index.applyAsInt(c);
  }

  @Override
  Answers answers(Set<Integer> codes) {
    return new Answers() {
      @Override
      public List<String> words() {
        return answers;
      }

      @Override
      public double probability(int answer, int code) {
        return answer == code ? 1 - ERROR : ERROR / (answers.size() - 1);
      }
    };
  }
}
