package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A rule's occasions: how many, and the few most telling. */
final class Tally {
  private static final int MOST_TELLING = 8;
  private static final int MOST_DOUBTFUL = 16;

  private static final Comparator<Occasion> WORST_FIRST =
      Comparator.<Occasion>comparingInt(o -> rank(o.verdict()))
          .thenComparingLong(o -> margin(o))
          .thenComparingLong(Occasion::earliestMicros);

  private long count;
  private final List<Occasion> telling = new ArrayList<>();

  /** Occasions since doubts were last settled: hypotheses may tell the same one differently. */
  private final List<Occasion> doubtful = new ArrayList<>();

  Tally copy() {
    Tally copy = new Tally();
    copy.count = count;
    copy.telling.addAll(telling);
    copy.doubtful.addAll(doubtful);
    return copy;
  }

  void add(Occasion occasion) {
    for (int i = 0; i < doubtful.size(); i++) {
      if (overlap(doubtful.get(i), occasion)) {
        doubtful.set(i, merge(doubtful.get(i), occasion));
        return;
      }
    }
    if (doubtful.size() == MOST_DOUBTFUL) {
      int last = doubtful.size() - 1;
      doubtful.set(last, merge(doubtful.get(last), occasion));
    } else {
      doubtful.add(occasion);
    }
  }

  /** Counts what came since the last time, by what these hypotheses, all there are, make of it. */
  void settle(Collection<Hypothesis> hypotheses) {
    boolean keeps = false;
    for (Hypothesis h : hypotheses) {
      keeps |= h.keepsLately;
      h.keepsLately = true;
    }
    boolean told = doubtful.stream().anyMatch(o -> o.verdict() == Verdict.BROKEN);
    for (Occasion occasion : doubtful) {
      if (keeps && occasion.verdict() == Verdict.BROKEN) {
        count(with(occasion, Verdict.UNDECIDED));
      } else if (!keeps && !told && occasion.verdict() == Verdict.UNDECIDED) {
        count(with(occasion, Verdict.BROKEN));
        told = true;
      } else {
        count(occasion);
      }
    }
    doubtful.clear();
  }

  int held() {
    return telling.size() + doubtful.size();
  }

  long count() {
    return count;
  }

  List<Occasion> telling() {
    return telling;
  }

  private void count(Occasion occasion) {
    count++;
    int full = telling.size();
    if (full == MOST_TELLING && WORST_FIRST.compare(occasion, telling.get(full - 1)) >= 0) {
      return;
    }
    int at = 0;
    while (at < full && WORST_FIRST.compare(telling.get(at), occasion) <= 0) {
      at++;
    }
    telling.add(at, occasion);
    if (telling.size() > MOST_TELLING) {
      telling.remove(MOST_TELLING);
    }
  }

  private static boolean overlap(Occasion a, Occasion b) {
    return a.earliestMicros() <= b.latestMicros() && b.earliestMicros() <= a.latestMicros();
  }

  private static Occasion merge(Occasion a, Occasion b) {
    return new Occasion(
        Math.min(a.earliestMicros(), b.earliestMicros()),
        Math.max(a.latestMicros(), b.latestMicros()),
        a.verdict() == b.verdict() ? a.verdict() : Verdict.UNDECIDED,
        hull(a.measuredMicros(), b.measuredMicros()),
        hull(a.marginMicros(), b.marginMicros()));
  }

  private static @Nullable Span hull(@Nullable Span a, @Nullable Span b) {
    return a == null || b == null ? null : a.hull(b);
  }

  private static Occasion with(Occasion o, Verdict verdict) {
    return new Occasion(
        o.earliestMicros(), o.latestMicros(), verdict, o.measuredMicros(), o.marginMicros());
  }

  private static int rank(Verdict verdict) {
    return switch (verdict) {
      case BROKEN -> 0;
      case UNDECIDED -> 1;
      case KEPT -> 2;
    };
  }

  private static long margin(Occasion occasion) {
    Span margin = occasion.marginMicros();
    return margin == null ? Long.MAX_VALUE : margin.lowMicros();
  }
}
