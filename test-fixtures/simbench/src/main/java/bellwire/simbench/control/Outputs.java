package bellwire.simbench.control;

import java.util.List;

/** A control's outputs as its program commands them, each with the moment of its last change. */
final class Outputs {
  private static final long LONG_AGO = Long.MIN_VALUE / 2;

  private final ControlSetup setup;
  private final List<String> terminals;
  private final Contact[] contacts;
  private final boolean[] on;
  private final long[] changedNanos;
  private final long[] dueNanos;

  Outputs(ControlSetup setup, long seed) {
    this.setup = setup;
    terminals = setup.kind().terminals();
    int n = terminals.size();
    contacts = new Contact[n];
    on = new boolean[n];
    changedNanos = new long[n];
    dueNanos = new long[n];
    for (int i = 0; i < n; i++) {
      contacts[i] = new Contact(setup, terminals.get(i), seed);
      changedNanos[i] = LONG_AGO;
      dueNanos[i] = Alarm.NEVER;
    }
  }

  Outputs(Outputs other) {
    setup = other.setup;
    terminals = other.terminals;
    contacts = new Contact[other.contacts.length];
    for (int i = 0; i < contacts.length; i++) {
      contacts[i] = new Contact(other.contacts[i]);
    }
    on = other.on.clone();
    changedNanos = other.changedNanos.clone();
    dueNanos = other.dueNanos.clone();
  }

  /** Whether a terminal is commanded on; one that the control hasn't got never is. */
  boolean on(String terminal) {
    int i = terminals.indexOf(terminal);
    return i >= 0 && on[i];
  }

  /** When its command last changed; long ago where it never did. */
  long changed(String terminal) {
    int i = terminals.indexOf(terminal);
    return i >= 0 ? changedNanos[i] : LONG_AGO;
  }

  Contact contact(int index) {
    return contacts[index];
  }

  /**
   * Brings a command towards what is wanted.
   *
   * @param dueNanos when it changes if the wish is new and lasts
   * @return whether it has changed now
   */
  boolean strive(String terminal, boolean wanted, long dueNanos, Alarm alarm) {
    int i = terminals.indexOf(terminal);
    if (i < 0) {
      return false;
    }
    if (on[i] == wanted) {
      this.dueNanos[i] = Alarm.NEVER;
      return false;
    }
    if (this.dueNanos[i] == Alarm.NEVER) {
      this.dueNanos[i] = dueNanos;
    }
    if (!alarm.reached(this.dueNanos[i])) {
      return false;
    }
    command(i, wanted, alarm.now(), true);
    return true;
  }

  /** All off at once, their supplies gone. */
  void release(long nanos) {
    for (int i = 0; i < on.length; i++) {
      if (on[i]) {
        command(i, false, nanos, false);
      }
    }
  }

  private void command(int i, boolean close, long nanos, boolean fed) {
    on[i] = close;
    changedNanos[i] = nanos;
    dueNanos[i] = Alarm.NEVER;
    contacts[i].command(close, nanos, fed);
  }

  /** The next edge of any contact if no command comes. */
  long nextEdge() {
    long next = Alarm.NEVER;
    for (Contact contact : contacts) {
      next = Math.min(next, contact.next());
    }
    return next;
  }

  /** Lets every contact's edges up to a moment pass. */
  void pass(long nanos) {
    for (Contact contact : contacts) {
      contact.closed(nanos);
    }
  }
}
