package bellwire.simbench.control;

import bellwire.simbench.control.ControlSetup.ContactKind;
import bellwire.simbench.control.ControlSetup.Contacts;
import bellwire.simbench.control.ControlSetup.Fault;
import java.util.SplittableRandom;

/**
 * One output: from commands to the moments at which it really closes and opens, with lag, bounce,
 * zero crossings and what may be wrong with it. The edges still to come are known at each command.
 */
final class Contact {
  private static final long[] NONE = {};
  private static final int MOST_BOUNCES = 6;

  /** Opening bounces this much shorter than closing. */
  private static final double OPENING_SHARE = 1.0 / 7;

  private final ControlSetup setup;
  private final String terminal;
  private final long seed;
  private long[] edges = NONE;
  private int passed;
  private boolean closed;
  private int commands;
  private boolean welded;

  Contact(ControlSetup setup, String terminal, long seed) {
    this.setup = setup;
    this.terminal = terminal;
    this.seed = seed;
  }

  Contact(Contact other) {
    setup = other.setup;
    terminal = other.terminal;
    seed = other.seed;
    edges = other.edges;
    passed = other.passed;
    closed = other.closed;
    commands = other.commands;
    welded = other.welded;
  }

  /** Whether it passes current at a moment that never decreases. */
  boolean closed(long nanos) {
    while (passed < edges.length && edges[passed] <= nanos) {
      closed = !closed;
      passed++;
    }
    return closed;
  }

  /** Its next edge, if no command comes. */
  long next() {
    return passed < edges.length ? edges[passed] : Alarm.NEVER;
  }

  /**
   * Commands it. What an earlier command still had to come does not come any more.
   *
   * @param fed whether its supply is on
   */
  void command(boolean close, long nanos, boolean fed) {
    closed(nanos);
    edges = NONE;
    passed = 0;
    commands++;
    if (close == closed || welded) {
      return;
    }
    SplittableRandom random =
        new SplittableRandom(seed + 0x9E3779B97F4A7C15L * commands + terminal.hashCode());
    long at = nanos + (close ? 0 : lateNanos());
    Edges made = new Edges(at);
    if (setup.contacts().kind() == ContactKind.RELAY) {
      relay(made, close, random);
    } else {
      made.add(fed ? setup.supply(terminal).zeroAfter(at) : at + 1);
    }
    if (close) {
      welded = fault(Defect.WELDED_CONTACT) != null;
      chatter(made, random);
    }
    edges = made.toArray();
  }

  private void relay(Edges made, boolean close, SplittableRandom random) {
    Contacts contacts = setup.contacts();
    double lag = close ? contacts.operateMillis() : contacts.releaseMillis();
    long first = made.last() + nanos(lag * random.nextDouble(0.5, 1) * 1e-3);
    made.add(first);
    double longest = contacts.bounceMillis() * (close ? 1 : OPENING_SHARE);
    int bounces = close ? random.nextInt(1, MOST_BOUNCES + 1) : random.nextInt(0, 3);
    double[] toggles =
        random.doubles(2L * bounces, 0, longest * random.nextDouble(0.1, 1)).sorted().toArray();
    for (double millis : toggles) {
      made.add(first + nanos(millis * 1e-3));
    }
  }

  private void chatter(Edges made, SplittableRandom random) {
    Fault fault = fault(Defect.CHATTER);
    if (fault == null) {
      return;
    }
    long at = made.last() + nanos(random.nextDouble(2, 6));
    long end = at + nanos(fault.seconds());
    while (at < end) {
      made.add(onZero(at));
      at += nanos(random.nextDouble(0.05, 0.12));
      made.add(onZero(at));
      at += nanos(random.nextDouble(0.06, 0.2));
    }
  }

  private long onZero(long nanos) {
    return setup.contacts().kind() == ContactKind.RELAY
        ? nanos
        : setup.supply(terminal).zeroAfter(nanos);
  }

  private long lateNanos() {
    Fault late = fault(Defect.LATE_DROP_OUT);
    return late == null ? 0 : nanos(late.seconds());
  }

  private @org.jspecify.annotations.Nullable Fault fault(Defect defect) {
    for (Fault fault : setup.faults()) {
      if (fault.defect() == defect && fault.terminal().equals(terminal)) {
        return fault;
      }
    }
    return null;
  }

  private static long nanos(double seconds) {
    return Math.round(seconds * 1e9);
  }

  /** Moments in strictly rising order. */
  private static final class Edges {
    private final java.util.stream.LongStream.Builder moments =
        java.util.stream.LongStream.builder();
    private long last;

    Edges(long from) {
      last = from;
    }

    void add(long nanos) {
      last = Math.max(nanos, last + 1);
      moments.add(last);
    }

    long last() {
      return last;
    }

    long[] toArray() {
      return moments.build().toArray();
    }
  }
}
