package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Edge;
import bellwire.analysis.logic.Formula.Since;
import bellwire.analysis.logic.Formula.Until;
import bellwire.analysis.logic.Formula.WeakUntil;
import bellwire.analysis.logic.Formula.Windowed;

/**
 * How far a formula looks from now. Its value is final once so much of the future is known; the
 * monitor holds no more than the changes of the two together.
 *
 * @param pastMicros {@link Bounds#UNBOUNDED} without a limit, which costs the monitor nothing
 * @param futureMicros {@link Bounds#UNBOUNDED} without a limit
 */
public record Horizon(long pastMicros, long futureMicros) {

  public static Horizon of(Formula formula) {
    long past = 0;
    long future = 0;
    for (Formula operand : formula.operands()) {
      Horizon inner = of(operand);
      past = Math.max(past, inner.pastMicros);
      future = Math.max(future, inner.futureMicros);
    }
    if (formula instanceof Windowed windowed) {
      return windowed.quantifier().future()
          ? new Horizon(past, sum(windowed.bounds(), future))
          : new Horizon(sum(windowed.bounds(), past), future);
    } else if (formula instanceof Until until) {
      return new Horizon(past, sum(until.bounds(), future));
    } else if (formula instanceof WeakUntil until) {
      return new Horizon(past, sum(until.bounds(), future));
    } else if (formula instanceof Since since) {
      return new Horizon(sum(since.bounds(), past), future);
    } else if (formula instanceof Edge) {
      return new Horizon(sum(Bounds.within(1), past), future);
    }
    return new Horizon(past, future);
  }

  private static long sum(Bounds bounds, long inner) {
    boolean bounded = bounds.bounded() && inner != Bounds.UNBOUNDED;
    return bounded ? Math.addExact(bounds.toMicros(), inner) : Bounds.UNBOUNDED;
  }
}
