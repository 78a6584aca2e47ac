package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One rule through all possible worlds. Edges whose intervals overlap may happen in any order, or
 * at once; for each set of them that may have happened there is a {@link Node}. Docs/rules.md says
 * why this is exact and where it is not.
 */
final class Track {
  /** Past these, the facts in doubt count as unknown until all doubtful edges are over. */
  static final int MOST_NODES = 64;

  private static final int MOST_PENDING = 24;
  private static final int MOST_CANDIDATES = 8;

  final Rule rule;
  private final Letters letters;
  private final Course course;
  private final Tally tally;
  private final int mostNodes;
  private final List<PendingEdge> pending = new ArrayList<>();
  private List<Node> nodes = new ArrayList<>();
  private boolean begun;

  /** The least of the latest moments of the pending edges. */
  private long nextLatest = Long.MAX_VALUE;

  Track(Rule rule, double clockPpm, int mostNodes) {
    this(rule, new Letters(rule), Course.of(rule, clockPpm), new Tally(), mostNodes);
  }

  private Track(Rule rule, Letters letters, Course course, Tally tally, int mostNodes) {
    this.mostNodes = mostNodes;
    this.rule = rule;
    this.letters = letters;
    this.course = course;
    this.tally = tally;
  }

  private Track copy() {
    Track copy = new Track(rule, letters, course, tally.copy(), mostNodes);
    copy.pending.addAll(pending);
    nodes.forEach(n -> copy.nodes.add(n.copy()));
    copy.begun = begun;
    copy.nextLatest = nextLatest;
    return copy;
  }

  /** Edges, hypotheses and occasions in memory. */
  int held() {
    int hypotheses = nodes.stream().mapToInt(n -> n.hypotheses().size()).sum();
    return pending.size() + hypotheses + tally.held();
  }

  List<String> facts() {
    return letters.facts();
  }

  void add(PendingEdge edge) {
    // A fact's next edge may lie before a blur's end, or on it: then that moves, or covers it too.
    boolean blurred = false;
    for (int i = 0; i < pending.size(); i++) {
      PendingEdge p = pending.get(i);
      boolean atItsEnd = begun && p.exact() && p.latest() == edge.earliest();
      boolean joins = edge.exact() && i == pending.size() - 1;
      blurred |=
          (p.touched() & edge.touched()) != 0
              && (p.earliest() > edge.earliest() || (atItsEnd && !joins));
    }
    if (!blurred && addToExact(edge)) {
      return;
    }
    pending.add(edge);
    nextLatest = Math.min(nextLatest, edge.latest());
    if (blurred || pending.size() > MOST_PENDING) {
      blur();
    }
  }

  /** What happens at one known moment is one edge. A fact's edges stay in their order. */
  private boolean addToExact(PendingEdge edge) {
    for (int i = pending.size() - 1; edge.exact() && i >= 0; i--) {
      PendingEdge other = pending.get(i);
      if (other.exact() && other.latest() == edge.latest()) {
        pending.set(i, other.with(edge));
        return true;
      }
      if ((other.touched() & edge.touched()) != 0) {
        return false;
      }
    }
    return false;
  }

  /** Everything that happens before {@code micros} is known; the trace began at {@code start}. */
  void advance(long start, long micros) {
    if (!begun && micros > start) {
      begin(start);
    }
    while (begun && nextLatest < micros) {
      if (alone()) {
        fireAlone(nodes.get(0), pending.get(0));
        continue;
      }
      Node node = firstDue(micros);
      if (node == null) {
        forget();
      } else {
        expand(node, nextLatest(node), false);
        if (nodes.size() > mostNodes) {
          blur();
        }
      }
      if (nodes.size() == 1) {
        tally.settle(nodes.get(0).hypotheses());
      }
    }
  }

  private boolean alone() {
    if (pending.size() != 1 || nodes.size() != 1) {
      return false;
    }
    Node node = nodes.get(0);
    return node.fired == 0 && node.unknown == 0 && pending.get(0).unknown() == 0;
  }

  /** Nothing else is in doubt: by far the most frequent case, done in place. */
  private void fireAlone(Node node, PendingEdge edge) {
    pending.clear();
    nextLatest = Long.MAX_VALUE;
    node.holding = node.holding & ~edge.touched() | edge.holding();
    node.lower = Math.max(node.lower, edge.earliest());
    int letter = letters.of(node.holding);
    boolean changed = false;
    for (Hypothesis h : node.hypotheses()) {
      if (letter != h.letter) {
        course.step(h, letter, node.lower, edge.latest(), tally);
        changed = true;
      }
    }
    if (changed) {
      node.join();
      tally.settle(node.hypotheses());
    }
  }

  /** What is known at the beginning is no change. */
  private void begin(long start) {
    begun = true;
    long known = 0;
    long holding = 0;
    for (PendingEdge edge : List.copyOf(pending)) {
      if (edge.latest() <= start) {
        known |= edge.touched() & ~edge.unknown();
        holding = holding & ~edge.touched() | edge.holding();
        pending.remove(edge);
      }
    }
    Node node = new Node(0, start, holding, all() & ~known);
    int possible = letters.possible(node.holding, node.unknown);
    for (int letter = 0; letter < 8; letter++) {
      if ((possible >> letter & 1) != 0) {
        node.add(course.begin(letter, start, tally));
      }
    }
    nodes.add(node);
    forget();
  }

  private long all() {
    int n = letters.facts().size();
    return n == Long.SIZE ? -1 : (1L << n) - 1;
  }

  /** Of the nodes for which an edge must have happened by then, that with the fewest happened. */
  private @Nullable Node firstDue(long micros) {
    Node first = null;
    for (Node node : nodes) {
      if (nextLatest(node) < micros
          && (first == null || Long.bitCount(node.fired) < Long.bitCount(first.fired))) {
        first = node;
      }
    }
    return first;
  }

  private long nextLatest(Node node) {
    long least = Long.MAX_VALUE;
    for (int i = 0; i < pending.size(); i++) {
      if ((node.fired >> i & 1) == 0) {
        least = Math.min(least, pending.get(i).latest());
      }
    }
    return least;
  }

  /**
   * Goes on from a node to all that may come next: sets of edges that happen at once, no later than
   * {@code limit}.
   */
  private void expand(Node node, long limit, boolean keep) {
    List<Integer> candidates = candidates(node, keep ? limit - 1 : limit);
    if (candidates.size() > MOST_CANDIDATES) {
      blur();
      return;
    }
    if (!keep) {
      nodes.remove(node);
    }
    if (candidates.isEmpty()) {
      return;
    }
    toggle(node, limit);
    for (int subset = 1; subset < 1 << candidates.size(); subset++) {
      long now = 0;
      for (int k = 0; k < candidates.size(); k++) {
        now |= (subset >> k & 1) != 0 ? 1L << candidates.get(k) : 0;
      }
      fire(node, now, limit);
    }
  }

  /** Edges that may be next: not after {@code limit}, nor behind one of the same fact. */
  private List<Integer> candidates(Node node, long limit) {
    List<Integer> candidates = new ArrayList<>();
    long behind = 0;
    for (int i = 0; i < pending.size(); i++) {
      if ((node.fired >> i & 1) == 0) {
        PendingEdge edge = pending.get(i);
        if (edge.earliest() <= limit && (edge.touched() & behind) == 0) {
          candidates.add(i);
        }
        behind |= edge.touched();
      }
    }
    return candidates;
  }

  private void fire(Node node, long now, long limit) {
    long lower = node.lower;
    long latestNow = limit;
    long latestRest = Long.MAX_VALUE;
    long earliestNow = Long.MIN_VALUE;
    long holding = node.holding;
    long unknown = node.unknown;
    for (int i = 0; i < pending.size(); i++) {
      PendingEdge edge = pending.get(i);
      if ((now >> i & 1) != 0) {
        earliestNow = Math.max(earliestNow, edge.earliest());
        latestNow = Math.min(latestNow, edge.latest());
        holding = holding & ~edge.touched() | edge.holding();
        unknown = unknown & ~edge.touched() | edge.unknown();
      } else if ((node.fired >> i & 1) == 0) {
        latestRest = Math.min(latestRest, edge.latest());
      }
    }
    if (earliestNow > latestNow || earliestNow >= latestRest) {
      return;
    }
    lower = Math.max(lower, earliestNow);
    long upper = Math.min(latestNow, latestRest);
    Node next = node(node.fired | now, lower, holding, unknown);
    pass(node, next, lower, Math.max(lower, upper));
  }

  private Node node(long fired, long lower, long holding, long unknown) {
    for (Node node : nodes) {
      if (node.fired == fired) {
        node.lower = Math.min(node.lower, lower);
        return node;
      }
    }
    Node node = new Node(fired, lower, holding, unknown);
    nodes.add(node);
    return node;
  }

  private void pass(Node from, Node to, long earliest, long latest) {
    int possible = letters.possible(to.holding, to.unknown);
    for (Hypothesis before : from.hypotheses()) {
      for (int letter = 0; letter < 8; letter++) {
        if ((possible >> letter & 1) != 0) {
          Hypothesis h = before.copy();
          if (letter != h.letter) {
            course.step(h, letter, earliest, latest, tally);
          }
          to.add(h);
        }
      }
    }
  }

  /** Lets unknown facts change any number of times until {@code latest}. */
  private void toggle(Node node, long latest) {
    int possible = letters.possible(node.holding, node.unknown);
    if (Integer.bitCount(possible) < 2 || latest <= node.lower) {
      return;
    }
    boolean changed = true;
    while (changed) {
      changed = false;
      for (Hypothesis before : List.copyOf(node.hypotheses())) {
        for (int letter = 0; letter < 8; letter++) {
          if ((possible >> letter & 1) != 0 && letter != before.letter) {
            Hypothesis h = before.copy();
            course.step(h, letter, node.lower, latest, tally);
            changed |= node.add(h);
          }
        }
      }
    }
  }

  /** Drops the edges that have happened in all worlds. */
  private void forget() {
    long common = -1;
    for (Node node : nodes) {
      common &= node.fired;
    }
    nextLatest = Long.MAX_VALUE;
    int kept = 0;
    long[] place = new long[pending.size()];
    List<PendingEdge> left = new ArrayList<>();
    for (int i = 0; i < pending.size(); i++) {
      if ((common >> i & 1) == 0) {
        place[i] = 1L << kept++;
        left.add(pending.get(i));
        nextLatest = Math.min(nextLatest, pending.get(i).latest());
      }
    }
    for (Node node : nodes) {
      long fired = 0;
      for (int i = 0; i < place.length; i++) {
        fired |= (node.fired >> i & 1) != 0 ? place[i] : 0;
      }
      node.fired = fired;
    }
    pending.clear();
    pending.addAll(left);
  }

  /**
   * Too much in doubt at once: one node, in which the facts with pending edges are not known until
   * the last of these.
   */
  private void blur() {
    long touched = 0;
    long holding = 0;
    long unknown = 0;
    long earliest = Long.MAX_VALUE;
    long latest = Long.MIN_VALUE;
    for (PendingEdge edge : pending) {
      earliest = Math.min(earliest, edge.earliest());
      touched |= edge.touched();
      holding = holding & ~edge.touched() | edge.holding();
      unknown = unknown & ~edge.touched() | edge.unknown();
      latest = Math.max(latest, edge.latest());
    }
    pending.clear();
    pending.add(new PendingEdge(touched, holding, unknown, latest, latest));
    nextLatest = latest;
    if (nodes.isEmpty()) {
      return;
    }
    Node first = nodes.get(0);
    long lower = nodes.stream().mapToLong(n -> n.lower).min().orElse(first.lower);
    long common = nodes.stream().mapToLong(n -> n.unknown).reduce(0, (a, b) -> a | b);
    if (common == 0) {
      lower = Math.max(lower, earliest); // nothing changes before
    }
    Node blurred = new Node(0, lower, first.holding, common | touched);
    nodes.forEach(n -> n.hypotheses().forEach(blurred::add));
    nodes = new ArrayList<>(List.of(blurred));
  }

  /** The verdict if the trace ended at {@code micros}; the track stays as it is. */
  Ruling ruling(long start, long micros) {
    Track copy = copy();
    copy.advance(start, micros);
    return copy.end(micros);
  }

  private Ruling end(long micros) {
    expandOpen(micros);
    List<Hypothesis> last = new ArrayList<>();
    for (Node node : nodes) {
      toggle(node, micros);
      for (Hypothesis h : node.hypotheses()) {
        if (h.state != Hypothesis.OUTSIDE) {
          course.end(h, micros, tally);
        }
        last.add(h);
      }
    }
    tally.settle(last);
    return ruling(last);
  }

  /** Edges that may lie before the end or after it: every set of them may have happened. */
  private void expandOpen(long micros) {
    for (int happened = 0; happened < pending.size(); happened++) {
      for (Node node : List.copyOf(nodes)) {
        if (Long.bitCount(node.fired) == happened && nodes.contains(node)) {
          expand(node, micros, true);
        }
      }
    }
  }

  private Ruling ruling(List<Hypothesis> last) {
    // No world left means that changes contradicted one another: nothing is known.
    boolean canKeep = last.isEmpty();
    boolean canBreak = last.isEmpty();
    long low = Long.MAX_VALUE;
    long high = Long.MIN_VALUE;
    for (Hypothesis h : last) {
      canKeep |= h.canKeep;
      canBreak |= h.canBreak;
      low = Math.min(low, h.marginLow);
      high = Math.max(high, h.marginHigh);
    }
    Verdict verdict = canKeep ? canBreak ? Verdict.UNDECIDED : Verdict.KEPT : Verdict.BROKEN;
    Span margin = low == Long.MAX_VALUE ? null : new Span(low, high);
    return new Ruling(rule, verdict, tally.count(), margin, tally.telling());
  }
}
