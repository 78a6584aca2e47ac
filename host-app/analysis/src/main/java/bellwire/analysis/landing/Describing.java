package bellwire.analysis.landing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;

/** A look that is answered by one of the things it would show in what is still considered. */
final class Describing extends Step {
  static final String OTHER = "something else";

  private final double error;
  private final Function<Case, String> shows;
  private final Map<String, Integer> codes = new LinkedHashMap<>();
  private final List<String> labels = new ArrayList<>();

  private final long live;

  Describing(String words, double cost, double error, Function<Case, String> shows) {
    this(words, "", cost, error, 0, shows);
  }

  Describing(
      String words,
      String caution,
      double cost,
      double error,
      long live,
      Function<Case, String> shows) {
    super(words, caution, cost);
    this.error = error;
    this.live = live;
    this.shows = shows;
  }

  @Override
  long live() {
    return live;
  }

  @Override
  int code(Case c) {
    return codes.computeIfAbsent(
        shows.apply(c),
        label -> {
          labels.add(label);
          return labels.size() - 1;
        });
  }

  @Override
  Answers answers(Set<Integer> considered) {
    List<Integer> offered = List.copyOf(new TreeSet<>(considered));
    List<String> words = new ArrayList<>();
    offered.forEach(code -> words.add(labels.get(code)));
    words.add(OTHER);
    return new Answers() {
      @Override
      public List<String> words() {
        return words;
      }

      @Override
      public double probability(int answer, int code) {
        int index = offered.indexOf(code);
        int right = index >= 0 ? index : offered.size();
        return right == answer ? 1 - error : error / offered.size();
      }
    };
  }
}
