package bellwire.simbench.pi4j;

import bellwire.board.BoardDescription;
import bellwire.simbench.EventSide;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongPredicate;

/**
 * The least event path that tests of the agent need: comparators and latches without delay, and
 * openings and touches set by hand. A conductor that nothing holds down is high while the wetting
 * is on.
 */
final class FakeEvents implements EventSide {

  /**
   * What was in force as a capture edge came, of old.
   *
   * @param guard ports on the guard bus, bit 16 for M
   */
  record Capture(long nanos, int guard, int word, int latches) {}

  private record Span(int ports, boolean touch, long fromNanos, long toNanos) {
    boolean at(long nanos) {
      return fromNanos <= nanos && nanos < toNanos;
    }
  }

  private static final int PORTS = 16;
  private static final int ALL = 0xFFFF;

  private final LongPredicate connected;
  private final LongPredicate tripped;
  private final long blindNanos;
  private final List<Span> spans = new ArrayList<>();
  final List<Capture> captures = new ArrayList<>();

  /** Nothing happens and nothing is written down: for tests of what the agent costs. */
  boolean quiet;

  /** Whether the far ends are tied together. */
  boolean tied = true;

  private long now;
  private long guard;
  private boolean wetting;
  private boolean touch;
  private long blindUntil;
  private int latched;
  private int word;
  private int latches;

  /**
   * @param connected whether the relays are closed at a time
   * @param tripped whether the interlock's latch takes the wetting away
   */
  FakeEvents(LongPredicate connected, LongPredicate tripped) {
    this.connected = connected;
    this.tripped = tripped;
    blindNanos = 1000 * (long) BoardDescription.revisionA().value("event-blind-micros").nominal();
  }

  /** Ports whose conductors are open from one time up to another. */
  void open(int ports, long fromNanos, long lengthNanos) {
    spans.add(new Span(ports, false, fromNanos, fromNanos + lengthNanos));
  }

  /** Ports, bit 16 for M, whose conductors touch each other. */
  void touch(int ports, long fromNanos, long lengthNanos) {
    spans.add(new Span(ports, true, fromNanos, fromNanos + lengthNanos));
  }

  private int above(long nanos) {
    if (!wetting || tripped.test(nanos)) {
      return 0;
    }
    int held = (int) guard;
    if (connected.test(nanos)) {
      int loose = 0;
      for (Span span : spans) {
        if (span.at(nanos)) {
          if (!span.touch()) {
            loose |= span.ports();
          } else if ((span.ports() & guard) != 0) {
            held |= span.ports();
          }
        }
      }
      if (tied && (guard & ~loose & 0xFFFF) != 0) {
        held |= ~loose;
      }
    }
    return ~held & 0xFFFF;
  }

  /** Latches see the state at each change, and so all there is of it. */
  private void advance(long nanos) {
    look(now);
    for (Span span : spans) {
      if (span.toNanos() >= now) {
        if (span.fromNanos() < nanos) {
          look(Math.max(now, span.fromNanos()));
        }
        if (span.toNanos() < nanos) {
          look(span.toNanos());
        }
      }
    }
    if (blindUntil < nanos) {
      look(Math.max(now, blindUntil));
    }
    now = nanos;
    look(now);
  }

  private void look(long nanos) {
    if (nanos >= blindUntil) {
      latched |= touch ? ~above(nanos) & 0xFFFF : above(nanos);
    }
  }

  @Override
  public void events(boolean wetting, boolean touch, long nanos) {
    advance(nanos);
    this.wetting = wetting;
    this.touch = touch;
  }

  @Override
  public void latchChain(long chain, long nanos) {
    if (quiet) {
      return;
    }
    advance(nanos);
    guard = 0;
    for (int port = 0; port <= PORTS; port++) {
      guard |= (chain >>> (3 * port + 2) & 1) << port;
    }
    blindUntil = nanos + blindNanos;
    latched = 0;
  }

  @Override
  public void capture(long nanos) {
    if (quiet) {
      word = touch ? ALL : 0;
      latches = 0;
      return;
    }
    advance(nanos);
    word = above(nanos);
    latches = latched;
    latched = 0;
    captures.add(new Capture(nanos, (int) guard, word, latches));
  }

  @Override
  public int word() {
    return word;
  }

  @Override
  public int latches() {
    return latches;
  }
}
