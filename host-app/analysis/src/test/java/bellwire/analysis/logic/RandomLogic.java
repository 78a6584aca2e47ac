package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Connective;
import bellwire.analysis.logic.Formula.Joined;
import bellwire.analysis.logic.Formula.Quantifier;
import bellwire.analysis.logic.Formula.Relation;
import bellwire.analysis.logic.Formula.Windowed;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SplittableRandom;

/** Formulas and traces for the oracle: small times, so that everything meets everything. */
final class RandomLogic {

  private final SplittableRandom random;

  RandomLogic(SplittableRandom random) {
    this.random = random;
  }

  private <T> T any(T[] values) {
    return values[random.nextInt(values.length)];
  }

  /** One in four is a response, an until or the like at every moment, as rules are. */
  Formula rule(int depth) {
    if (random.nextInt(4) != 0) {
      return formula(depth);
    }
    Formula late =
        switch (random.nextInt(4)) {
          case 0 -> Formula.always(formula(1));
          case 1 -> Formula.eventually(new Bounds(random.nextInt(3), Bounds.UNBOUNDED), formula(1));
          case 2 -> Formula.until(formula(1), formula(1));
          default -> Formula.weakUntil(formula(1), formula(1));
        };
    boolean first = random.nextBoolean();
    Formula other = formula(1);
    Formula body = new Joined(any(Connective.values()), first ? late : other, first ? other : late);
    return random.nextBoolean() ? Formula.always(body) : Formula.eventually(body);
  }

  Formula formula(int depth) {
    if (depth == 0 || random.nextInt(8) == 0) {
      return leaf();
    }
    int less = depth - 1;
    return switch (random.nextInt(13)) {
      case 0 -> Formula.not(formula(less));
      case 1, 2, 3 -> new Joined(any(Connective.values()), formula(less), formula(less));
      case 4, 5, 6, 7 -> new Windowed(any(Quantifier.values()), bounds(), formula(less));
      case 8, 9 -> Formula.until(formula(less), bounds(), formula(less));
      case 10 -> Formula.weakUntil(formula(less), bounds(), formula(less));
      case 11 -> Formula.since(formula(less), bounds(), formula(less));
      default -> random.nextBoolean() ? Formula.rise(formula(less)) : Formula.fall(formula(less));
    };
  }

  private Formula leaf() {
    return switch (random.nextInt(8)) {
      case 0, 1 -> Formula.atom("p");
      case 2, 3 -> Formula.atom("q");
      case 4 -> Formula.atom("x");
      case 5 -> Formula.threshold("x", any(Relation.values()), random.nextInt(-3, 4));
      case 6 -> Formula.threshold("y", any(Relation.values()), random.nextInt(-3, 4) + 0.5);
      default ->
          random.nextInt(3) == 0 ? Formula.constant(random.nextBoolean()) : Formula.atom("y");
    };
  }

  Bounds bounds() {
    long from = random.nextInt(3) == 0 ? 0 : random.nextInt(6);
    return random.nextInt(3) == 0
        ? new Bounds(from, Bounds.UNBOUNDED)
        : new Bounds(from, from + random.nextInt(7));
  }

  /** Signals p and q Boolean, x and y real, over the span; of each piece one in eight unknown. */
  Map<String, Signal> signals(long begin, long end, boolean unknowns) {
    Map<String, Signal> signals = new LinkedHashMap<>();
    for (String name : new String[] {"p", "q", "x", "y"}) {
      Signal.Builder signal = Signal.builder(begin);
      for (long at = begin; at < end; ) {
        at = Math.min(end, at + 1 + random.nextInt(random.nextBoolean() ? 3 : 12));
        signal.until(at, value(name.equals("p") || name.equals("q"), unknowns));
      }
      signals.put(name, signal.build());
    }
    return signals;
  }

  private Robustness value(boolean isBoolean, boolean unknowns) {
    if (unknowns && random.nextInt(8) == 0) {
      return Robustness.UNKNOWN;
    } else if (isBoolean) {
      return random.nextBoolean() ? Robustness.TRUE : Robustness.FALSE;
    }
    double low = random.nextInt(-4, 5);
    return unknowns && random.nextInt(4) == 0
        ? new Robustness(low, low + random.nextInt(4))
        : Robustness.exactly(low);
  }

  /** The signals with a value drawn within the bounds at every moment. */
  Map<String, Signal> completion(Map<String, Signal> signals, long begin, long end) {
    Map<String, Signal> result = new LinkedHashMap<>();
    signals.forEach(
        (name, signal) -> {
          Signal.Builder drawn = Signal.builder(begin);
          for (long t = begin; t < end; t++) {
            drawn.until(t + 1, t < signal.endMicros() ? within(name, signal.at(t)) : free(name));
          }
          result.put(name, drawn.build());
        });
    return result;
  }

  private Robustness free(String name) {
    return within(name, Robustness.UNKNOWN);
  }

  private Robustness within(String name, Robustness bounds) {
    if (bounds.low() == bounds.high()) {
      return bounds;
    } else if (name.equals("p") || name.equals("q")) {
      return random.nextBoolean() ? Robustness.TRUE : Robustness.FALSE;
    }
    double low = Math.max(bounds.low(), -6);
    double high = Math.min(bounds.high(), 6);
    return Robustness.exactly(random.nextDouble(low, Math.nextUp(high)));
  }
}
