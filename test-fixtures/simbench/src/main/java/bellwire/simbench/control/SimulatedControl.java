package bellwire.simbench.control;

import bellwire.simbench.CallSide;
import bellwire.simbench.control.ControlSetup.Contacts;
import bellwire.simbench.control.ControlSetup.Supply;
import java.util.List;

/**
 * A room control on the bench: operated by {@link #operate}, seen at its terminals. Times are
 * nanoseconds of the bench and must never decrease from call to call, whichever is called. The same
 * set-up, seed and operations give the same edges to the nanosecond.
 */
public final class SimulatedControl implements CallSide {
  /** What the board's wetting supply puts on a lead through a closed dry contact. */
  public static final double WETTING_VOLTS = 5;

  private static final int MAX_LEADS = 16;

  /** A leak is through a capacitor: ahead of its supply. */
  private static final double LEAK_LEAD_DEGREES = 90;

  private final ControlSetup setup;
  private final List<String> terminals;
  private final int[] leadTerminal;
  private final int[] supplyOf;
  private final Regulator regulator;
  private long nowNanos = Long.MIN_VALUE;
  private long foundNextNanos = Long.MIN_VALUE;

  /**
   * A control at rest with its power on since long ago, mode off, fan automatic, the set point at
   * the room's temperature.
   *
   * @param leadTerminals the terminal on each lead from X1 on, empty for none; 16 at most
   * @param seed of what differs from one edge to the next: lag, bounce, chatter
   */
  public SimulatedControl(ControlSetup setup, List<String> leadTerminals, long seed) {
    if (leadTerminals.size() > MAX_LEADS) {
      throw new IllegalArgumentException("too many leads: leads=" + leadTerminals.size());
    }
    this.setup = setup;
    terminals = setup.kind().terminals();
    leadTerminal = new int[MAX_LEADS];
    for (int lead = 0; lead < MAX_LEADS; lead++) {
      boolean connected = lead < leadTerminals.size() && !leadTerminals.get(lead).isEmpty();
      leadTerminal[lead] = connected ? index(leadTerminals.get(lead)) : -1;
    }
    supplyOf = terminals.stream().mapToInt(terminal -> setup.supplyIndex(terminal)).toArray();
    regulator = new Regulator(setup, seed);
  }

  /** Its kind's terminals, in the order of a rehearsal's leads. */
  public List<String> terminals() {
    return terminals;
  }

  public ControlSetup setup() {
    return setup;
  }

  /** The latest moment at which it was operated or looked at; before the first, the least. */
  public long nanos() {
    return nowNanos;
  }

  public void operate(Operation operation, long nanos) {
    advance(nanos);
    regulator.operate(operation, nanos);
    foundNextNanos = Long.MIN_VALUE;
  }

  /** Whether a terminal's contact passes current; its supply may be off all the same. */
  public boolean closed(String terminal, long nanos) {
    int index = index(terminal);
    advance(nanos);
    return regulator.outputs().contact(index).closed(nanos);
  }

  /** The next moment after nanos at which some contact changes if nobody operates the control. */
  public long nextChange(long nanos) {
    advance(nanos);
    if (foundNextNanos <= nanos) {
      foundNextNanos = findNext();
    }
    return foundNextNanos;
  }

  private long findNext() {
    Regulator ahead = regulator;
    while (ahead.next() < ahead.outputs().nextEdge()) {
      if (ahead == regulator) {
        ahead = new Regulator(regulator);
      }
      ahead.look(ahead.next());
    }
    return ahead.outputs().nextEdge();
  }

  @Override
  public double volts(int lead, boolean wetting, boolean load, long nanos) {
    int index = leadTerminal[lead];
    if (index < 0) {
      return 0;
    }
    advance(nanos);
    boolean closed = regulator.outputs().contact(index).closed(nanos);
    if (setup.supplies().isEmpty()) {
      return closed && wetting ? WETTING_VOLTS : 0;
    }
    if (!regulator.powered()) {
      return 0;
    }
    Contacts contacts = setup.contacts();
    double share = closed ? 1 : load ? contacts.loadedLeakShare() : contacts.leakShare();
    if (share == 0) {
      return 0;
    }
    Supply supply = setup.supplies().get(supplyOf[index]);
    double sagged = 1 - supply.sagPerCall() * callsOn(supplyOf[index], nanos);
    return supply.volts(nanos, sagged * share, closed ? 0 : LEAK_LEAD_DEGREES);
  }

  private int callsOn(int supply, long nanos) {
    int count = 0;
    for (int i = 0; i < supplyOf.length; i++) {
      boolean here = supplyOf[i] == supply;
      count += here && regulator.outputs().contact(i).closed(nanos) ? 1 : 0;
    }
    return count;
  }

  private void advance(long nanos) {
    if (nanos < nowNanos) {
      throw new IllegalArgumentException("time runs backwards: nanos=" + nanos);
    }
    if (nanos == nowNanos && regulator.next() > nanos) {
      return; // all leads are read at one moment
    }
    nowNanos = nanos;
    while (regulator.next() <= nanos) {
      regulator.look(regulator.next());
    }
    regulator.outputs().pass(nanos);
  }

  private int index(String terminal) {
    int index = terminals.indexOf(terminal);
    if (index < 0) {
      throw new IllegalArgumentException(
          setup.kind() + " has no such terminal: terminal=" + terminal);
    }
    return index;
  }
}
