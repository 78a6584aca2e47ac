package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.List;

/** The hypotheses of those worlds in which the same of the pending edges have happened. */
final class Node {
  /** More starts of a stop-watch than this are taken for one wide interval. */
  private static final int MOST_STARTS = 16;

  /** The edges that have happened, as bits by their place among the pending. */
  long fired;

  /** None of these worlds' next events lies before it. */
  long lower;

  /** Facts that are the case, and that are not known. */
  long holding;

  final long unknown;
  private List<Hypothesis> hypotheses = new ArrayList<>(1);

  Node(long fired, long lower, long holding, long unknown) {
    this.fired = fired;
    this.lower = lower;
    this.holding = holding;
    this.unknown = unknown;
  }

  Node copy() {
    Node copy = new Node(fired, lower, holding, unknown);
    hypotheses.forEach(h -> copy.hypotheses.add(h.copy()));
    return copy;
  }

  List<Hypothesis> hypotheses() {
    return hypotheses;
  }

  /** Joins those that have come to stand alike. */
  void join() {
    if (hypotheses.size() > 1) {
      List<Hypothesis> before = hypotheses;
      hypotheses = new ArrayList<>(before.size());
      before.forEach(this::add);
    }
  }

  /** Takes in a hypothesis; returns whether it brought worlds that were not there. */
  boolean add(Hypothesis hypothesis) {
    Hypothesis widest = null;
    int starts = 0;
    for (Hypothesis h : hypotheses) {
      if (h.alike(hypothesis)) {
        if (h.sameStart(hypothesis)) {
          return h.merge(hypothesis);
        }
        starts++;
        widest = h;
      }
    }
    if (widest != null && starts >= MOST_STARTS) {
      return widest.merge(hypothesis);
    }
    hypotheses.add(hypothesis);
    return true;
  }
}
