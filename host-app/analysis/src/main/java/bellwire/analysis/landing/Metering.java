package bellwire.analysis.landing;

import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Point;
import java.util.List;
import java.util.Set;

/** Volts between two points in a state. Codes 0 to 3: a bin; 4 to 6: between two of them (CP). */
final class Metering extends Step {
  private static final List<String> BINS =
      List.of("none (below 2 V)", "low (2 to 16 V)", "about 24 V (16 to 32 V)", "more than 32 V");
  private static final double[] EDGES = {2, 16, 32};
  private static final double NEAR_AN_EDGE = 0.1;
  private static final double ERROR = 0.03;

  private final State state;
  private final Point a;
  private final Point b;
  private final long live;

  Metering(String words, String caution, double cost, State state, long live, Point a, Point b) {
    super(words, caution, cost);
    this.state = state;
    this.live = live;
    this.a = a;
    this.b = b;
  }

  @Override
  long live() {
    return live;
  }

  @Override
  int code(Case c) {
    return code(c.simulation().volts(state, a, b));
  }

  static int code(double volts) {
    int bin = 0;
    for (int k = 0; k < EDGES.length; k++) {
      if (Math.abs(volts - EDGES[k]) < NEAR_AN_EDGE * EDGES[k]) {
        return BINS.size() + k;
      }
      bin += volts > EDGES[k] ? 1 : 0;
    }
    return bin;
  }

  @Override
  Answers answers(Set<Integer> codes) {
    return new Answers() {
      @Override
      public List<String> words() {
        return BINS;
      }

      @Override
      public double probability(int answer, int code) {
        if (code < BINS.size()) {
          return answer == code ? 1 - ERROR : ERROR / (BINS.size() - 1);
        }
        int below = code - BINS.size();
        boolean either = answer == below || answer == below + 1;
        return either ? (1 - ERROR) / 2 : ERROR / (BINS.size() - 2);
      }
    };
  }
}
