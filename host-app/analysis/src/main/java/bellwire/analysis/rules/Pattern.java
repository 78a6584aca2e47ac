package bellwire.analysis.rules;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a rule demands of a stretch of time: the patterns of Dwyer, Avrunin and Corbett (1999) and,
 * with time, of Konrad and Cheng (2005). docs/rules.md has their formulas. Times are at least 1 µs
 * and at most {@link #LONGEST_MICROS}.
 */
public sealed interface Pattern {
  long LONGEST_MICROS = 366L * 86_400 * 1_000_000;

  /** Absence. */
  record Never(Expression what) implements Pattern {}

  /** Universality. */
  record Always(Expression what) implements Pattern {}

  /** Existence. */
  record Sometime(Expression what) implements Pattern {}

  /** Precedence: {@code what} not before {@code first} was the case. */
  record OnlyAfter(Expression what, Expression first) implements Pattern {}

  /**
   * Response, bounded response: each time {@code when} is the case, {@code then} comes.
   *
   * @param withinMicros null: before the scope ends
   */
  record Response(Expression when, Expression then, @Nullable Long withinMicros)
      implements Pattern {
    public Response {
      if (withinMicros != null) {
        requireDuration(withinMicros);
      }
    }
  }

  /** Bounded invariance: once {@code when} is the case, {@code then} holds for some time. */
  record Holds(Expression when, Expression then, long forMicros) implements Pattern {
    public Holds {
      requireDuration(forMicros);
    }
  }

  /** Minimum duration of each stretch of {@code what} that begins within the scope. */
  record AtLeast(Expression what, long micros) implements Pattern {
    public AtLeast {
      requireDuration(micros);
    }
  }

  /** Maximum duration of each stretch of {@code what} that begins within the scope. */
  record AtMost(Expression what, long micros) implements Pattern {
    public AtMost {
      requireDuration(micros);
    }
  }

  /** Bounded recurrence: {@code what} is never away for longer. */
  record Recurs(Expression what, long withinMicros) implements Pattern {
    public Recurs {
      requireDuration(withinMicros);
    }
  }

  /** In the order of the record's components. */
  default List<Expression> expressions() {
    if (this instanceof Never p) {
      return List.of(p.what());
    } else if (this instanceof Always p) {
      return List.of(p.what());
    } else if (this instanceof Sometime p) {
      return List.of(p.what());
    } else if (this instanceof OnlyAfter p) {
      return List.of(p.what(), p.first());
    } else if (this instanceof Response p) {
      return List.of(p.when(), p.then());
    } else if (this instanceof Holds p) {
      return List.of(p.when(), p.then());
    } else if (this instanceof AtLeast p) {
      return List.of(p.what());
    } else if (this instanceof AtMost p) {
      return List.of(p.what());
    } else {
      return List.of(((Recurs) this).what());
    }
  }

  private static void requireDuration(long micros) {
    if (micros < 1 || micros > LONGEST_MICROS) {
      throw new IllegalArgumentException("micros=" + micros);
    }
  }
}
