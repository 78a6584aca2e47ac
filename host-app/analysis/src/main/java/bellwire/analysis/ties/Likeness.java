package bellwire.analysis.ties;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All the ways in which what was seen can be laid upon what would be there: isomorphisms of two
 * {@link Joined}, found component by component. A vertex's image fixes its fellows' images but for
 * the order within a group, so a search from one vertex hardly branches.
 */
final class Likeness {
  /** Steps of search after which it gives up. */
  private static final int MOST_STEPS = 2_000_000;

  /** There was too much to search. */
  static final class Exhausted extends Exception {
    private static final long serialVersionUID = 1L;

    Exhausted() {
      super("steps=" + MOST_STEPS, null, false, false);
    }
  }

  private final Joined seen;
  private final Joined there;
  private final int[] image;
  private final boolean[] used;
  private final int[] mapped;
  private final boolean[] placed;
  private int count;
  private int steps;

  Likeness(Joined seen, Joined there) {
    this.seen = seen;
    this.there = there;
    image = new int[seen.vertices];
    used = new boolean[there.vertices];
    mapped = new int[seen.vertices];
    placed = new boolean[seen.vertices];
  }

  /**
   * Which vertices of the one may be which of the other.
   *
   * @return by vertex seen, by vertex there; null where the two are not alike
   */
  boolean @Nullable [][] possible() throws Exhausted {
    if (seen.vertices != there.vertices || !Arrays.equals(seen.census(), there.census())) {
      return null;
    }
    List<List<Integer>> parts = seen.components();
    List<List<Integer>> others = there.components();
    int[] kind = kinds(parts, others);
    if (kind.length == 0) {
      return null;
    }
    boolean[][] possible = new boolean[seen.vertices][there.vertices];
    for (int s = 0; s < parts.size(); s++) {
      for (int t = 0; t < others.size(); t++) {
        if (kind[s] == kind[parts.size() + t]) {
          for (int v : parts.get(s)) {
            for (int w : others.get(t)) {
              possible[v][w] = alike(v, w, parts.get(s).size());
            }
          }
        }
      }
    }
    return possible;
  }

  /**
   * Kinds of component, those seen first, then those there; empty where not as many of each kind
   * are seen as there are.
   */
  private int[] kinds(List<List<Integer>> parts, List<List<Integer>> others) throws Exhausted {
    int n = parts.size();
    if (others.size() != n) {
      return new int[0];
    }
    int[] kind = new int[2 * n];
    Arrays.fill(kind, -1);
    for (int s = 0; s < n; s++) {
      int free = -1;
      int earlier = -1;
      for (int t = 0; t < n && free < 0; t++) {
        if (alike(parts.get(s), others.get(t))) {
          if (kind[n + t] < 0) {
            free = t;
          } else {
            earlier = kind[n + t];
          }
        }
      }
      if (free < 0) {
        return new int[0];
      }
      kind[s] = earlier < 0 ? s : earlier;
      kind[n + free] = kind[s];
    }
    return kind;
  }

  private boolean alike(List<Integer> part, List<Integer> other) throws Exhausted {
    if (part.size() != other.size()) {
      return false;
    }
    for (int w : other) {
      if (alike(part.get(0), w, part.size())) {
        return true;
      }
    }
    return false;
  }

  /** Whether the component of {@code v} can be laid upon that of {@code w} with v upon w. */
  private boolean alike(int v, int w, int componentSize) throws Exhausted {
    if (!fits(v, w)) {
      return false;
    }
    map(v, w);
    boolean found = extend(componentSize);
    unmap(v, w);
    return found;
  }

  private boolean extend(int componentSize) throws Exhausted {
    if (count == componentSize) {
      return true;
    }
    if (++steps > MOST_STEPS) {
      throw new Exhausted();
    }
    for (int layer = 0; layer < seen.layers(); layer++) {
      for (int k = count - 1; k >= 0; k--) {
        int from = mapped[k];
        int next = fellow(layer, from);
        if (next >= 0) {
          return place(layer, from, next, componentSize);
        }
      }
    }
    throw new IllegalStateException("mapped=" + count + " of=" + componentSize);
  }

  /** A fellow of {@code v} that has no image yet, −1 if there is none. */
  private int fellow(int layer, int v) {
    if (seen.groupSize(layer, v) > 1) {
      for (int u = 0; u < seen.vertices; u++) {
        if (seen.together(layer, u, v) && !placed[u]) {
          return u;
        }
      }
    }
    return -1;
  }

  private boolean place(int layer, int from, int next, int componentSize) throws Exhausted {
    for (int w = 0; w < there.vertices; w++) {
      if (!used[w] && there.together(layer, w, image[from]) && fits(next, w)) {
        map(next, w);
        boolean found = extend(componentSize);
        unmap(next, w);
        if (found) {
          return true;
        }
      }
    }
    return false;
  }

  private void map(int v, int w) {
    image[v] = w;
    used[w] = true;
    placed[v] = true;
    mapped[count++] = v;
  }

  private void unmap(int v, int w) {
    used[w] = false;
    placed[v] = false;
    count--;
    if (mapped[count] != v) {
      throw new IllegalStateException("unmapped=" + v);
    }
  }

  /** Whether v upon w agrees with all that is mapped. */
  private boolean fits(int v, int w) {
    if (seen.isMetal(v) != there.isMetal(w) || seen.isMarked(v) != there.isMarked(w)) {
      return false;
    }
    for (int layer = 0; layer < seen.layers(); layer++) {
      if (seen.groupSize(layer, v) != there.groupSize(layer, w)) {
        return false;
      }
      for (int k = 0; k < count; k++) {
        int u = mapped[k];
        if (seen.together(layer, u, v) != there.together(layer, image[u], w)) {
          return false;
        }
      }
    }
    return true;
  }
}
