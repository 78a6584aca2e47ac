package bellwire.app.rehearsal;

import bellwire.analysis.rules.Expression;
import java.util.Map;
import java.util.Set;

/**
 * One step of a rehearsal: what the operator does, what each terminal should do, and when the step
 * is over. A terminal that is neither asked for nor free has to be at rest.
 *
 * @param say instruction to the operator
 * @param mode of the control from this step on
 * @param asks terminals that must be called, each with the name of the time it may take
 * @param free terminals that may do as they like, such as a fan that runs on
 * @param phases longer stretches of the rehearsal that it belongs to, for rules to speak of
 * @param until what ends the step, once {@code stayMicros} have passed with it
 * @param atMostMicros when the step gives up waiting
 * @param listen what the technician should see or hear start or stop, asked in a live rehearsal;
 *     empty for nothing
 * @param runsCompressor whether equipment that must not run in the cold would run
 */
public record Step(
    String name,
    String say,
    Deed deed,
    Deed.Mode mode,
    Map<String, String> asks,
    Set<String> free,
    Set<String> phases,
    Expression until,
    long stayMicros,
    long atMostMicros,
    String listen,
    boolean runsCompressor,
    int line) {
  public Step {
    asks = Map.copyOf(asks);
    free = Set.copyOf(free);
    phases = Set.copyOf(phases);
  }

  /** Whether a terminal has to be at rest. */
  public boolean unwanted(Terminal t) {
    return !asks.containsKey(t.name()) && !free.contains(t.name()) && !t.mayStay().contains(mode);
  }
}
