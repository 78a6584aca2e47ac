package bellwire.analysis.landing;

import java.util.Arrays;

/** Things 0 to n − 1 in groups that are joined one to another; a group is known by its lowest. */
final class Groups {
  private final int[] parent;

  Groups(int n) {
    parent = new int[n];
    reset();
  }

  private Groups(int[] parent) {
    this.parent = parent;
  }

  Groups copy() {
    return new Groups(parent.clone());
  }

  void reset() {
    Arrays.setAll(parent, i -> i);
  }

  void set(Groups other) {
    System.arraycopy(other.parent, 0, parent, 0, parent.length);
  }

  void join(int a, int b) {
    int x = of(a);
    int y = of(b);
    parent[Math.max(x, y)] = Math.min(x, y);
  }

  /** The lowest of the group. */
  int of(int a) {
    int at = a;
    while (parent[at] != at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }
}
