package bellwire.analysis.loop;

import bellwire.analysis.loop.Branch.Kind;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.hipparchus.complex.Complex;
import org.jspecify.annotations.Nullable;

/** Names the way that a current takes, theory (78). */
final class CurrentPath {
  /** Less is no current. */
  private static final double LEAST_AMPS = 1e-6;

  /** A branch, and the node that the way reaches by it. */
  private record Step(int branch, int to) {}

  private final List<Branch> branches;
  private final Solved solved;
  private final List<Point> points;

  CurrentPath(LoopCircuit circuit, Solved solved) {
    this.solved = solved;
    branches = circuit.branches();
    points = circuit.points();
  }

  /** The widest ring through a branch, from a transformer's hot end back to its common. */
  List<String> through(int branch) {
    if (solved.amps(branch) < LEAST_AMPS) {
      return List.of();
    }
    List<Step> ring = widest(branch);
    ring.add(new Step(branch, branches.get(branch).b()));
    return words(fromTransformer(ring));
  }

  /**
   * Of each branch, the part of its current that is in phase with one branch's: these parts obey
   * Kirchhoff's current law as the currents do, so that a ring of them leads through it.
   */
  private double[] inPhaseWith(int branch) {
    Complex unit = solved.current(branch).conjugate().divide(solved.amps(branch));
    double[] parts = new double[branches.size()];
    for (int i = 0; i < parts.length; i++) {
      parts[i] = solved.current(i).multiply(unit).getRealPart();
    }
    return parts;
  }

  /** From a branch's second node to its first along the flow, where the narrowest is widest. */
  private List<Step> widest(int branch) {
    double[] parts = inPhaseWith(branch);
    double[] width = new double[points.size()];
    int[] reachedBy = new int[points.size()];
    boolean[] done = new boolean[points.size()];
    Arrays.fill(reachedBy, -1);
    int start = branches.get(branch).b();
    width[start] = Double.POSITIVE_INFINITY;
    for (int at = start; at >= 0; at = widestLeft(width, done)) {
      done[at] = true;
      for (int i = 0; i < parts.length; i++) {
        Branch b = branches.get(i);
        int from = parts[i] > 0 ? b.a() : b.b();
        int to = from == b.a() ? b.b() : b.a();
        double wide = Math.min(width[at], Math.abs(parts[i]));
        if (i != branch && from == at && !done[to] && wide > width[to]) {
          width[to] = wide;
          reachedBy[to] = i;
        }
      }
    }
    List<Step> way = new ArrayList<>();
    for (int at = branches.get(branch).a(); at != start && reachedBy[at] >= 0; ) {
      way.add(new Step(reachedBy[at], at));
      Branch b = branches.get(reachedBy[at]);
      at = at == b.a() ? b.b() : b.a();
    }
    Collections.reverse(way);
    return way;
  }

  private static int widestLeft(double[] width, boolean[] done) {
    int best = -1;
    for (int n = 0; n < width.length; n++) {
      if (!done[n] && width[n] > 0 && (best < 0 || width[n] > width[best])) {
        best = n;
      }
    }
    return best;
  }

  /** The ring turned so that it begins with a transformer, and leaves it by its hot end. */
  private List<Step> fromTransformer(List<Step> ring) {
    for (int i = 0; i < ring.size(); i++) {
      Branch b = branches.get(ring.get(i).branch());
      if (b.kind() == Kind.TRANSFORMER) {
        Collections.rotate(ring, -i);
        return ring.get(0).to() == b.a() ? ring : backwards(ring);
      }
    }
    return ring;
  }

  /** The same ring the other way round, its first step first. */
  private List<Step> backwards(List<Step> ring) {
    List<Step> back = new ArrayList<>();
    for (int i = 0; i < ring.size(); i++) {
      int step = (ring.size() - i) % ring.size();
      int to = ring.get((step + ring.size() - 1) % ring.size()).to();
      back.add(new Step(ring.get(step).branch(), to));
    }
    return back;
  }

  private List<String> words(List<Step> ring) {
    List<String> words = new ArrayList<>();
    for (Step step : ring) {
      add(words, branches.get(step.branch()).name());
      add(words, place(points.get(step.to())));
    }
    return words;
  }

  private static void add(List<String> words, @Nullable String word) {
    if (word != null && (words.isEmpty() || !words.get(words.size() - 1).equals(word))) {
      words.add(word);
    }
  }

  /** Terminals and bare metal have names for people. */
  private static @Nullable String place(Point point) {
    return switch (point.side()) {
      case NEAR, FAR, METAL -> point.words();
      case INSIDE, CONTROL, CABLE -> null;
    };
  }
}
