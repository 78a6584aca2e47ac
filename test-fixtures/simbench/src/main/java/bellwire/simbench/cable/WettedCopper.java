package bellwire.simbench.cable;

import bellwire.simbench.EventSide;
import bellwire.simbench.file.Bench;
import java.util.Arrays;

/**
 * The event path in front of a bench's cable: each port's voltage behind its relay as one
 * exponential after another, the comparators' crossings and the latches in closed form, for every
 * intermittent opening and touch however short. Where nothing happens a capture costs next to
 * nothing.
 *
 * <p>A change of the crosspoint discharges every port, so that all begin anew from common: the
 * worst that switching the neighbours can do to one. AC sources do not reach these comparators:
 * what they could turn over the interlock takes off first.
 */
public final class WettedCopper implements EventSide {
  private static final long NEVER = Courses.NEVER;
  private static final int PORTS = WettedLevels.PORTS;
  private static final int ALL = (1 << PORTS) - 1;
  private final SimulatedCopper copper;
  private final Topologies topologies;
  private final Epochs epochs;
  private final double[] thresholdVolts = new double[PORTS];
  private final long[] latchNanos = new long[PORTS];
  private final long longestLatchNanos;
  private final long blindNanos;
  private final Courses courses;

  private long now;
  private long chain;
  private boolean relaysClosed;
  private boolean wetted;
  private boolean touch;
  private Courses.Course course;
  private long changedNanos;
  private final double[] changedVolts = new double[PORTS];
  private final long[] crossNanos = new long[PORTS];
  private long settledNanos;
  private int above;
  private final long[] sinceNanos = new long[PORTS];
  private long blindUntilNanos;
  private int latched;
  private int wordRegister;
  private int latchRegister;

  /**
   * @param copper of the same bench and seed; tells when relays and wetting change
   */
  public WettedCopper(Bench bench, long seed, SimulatedCopper copper) {
    this.copper = copper;
    topologies = copper.topologies();
    epochs = new Epochs(bench, seed, 0);
    Draws draws = new Draws(seed);
    long longest = 0;
    for (int p = 0; p < PORTS; p++) {
      thresholdVolts[p] = draws.component("event-threshold-volts", p);
      latchNanos[p] = Math.round(1000 * draws.component("event-latch-micros", p));
      longest = Math.max(longest, latchNanos[p]);
    }
    longestLatchNanos = longest;
    blindNanos = Math.round(1000 * draws.component("event-blind-micros"));
    courses = new Courses(topologies, epochs, thresholdVolts);
    course = course(0);
    rest();
    copper.tell(this::switched);
  }

  /** A comparator's threshold as it is. */
  public double thresholdVolts(int port) {
    return thresholdVolts[port];
  }

  /** How long a comparator must stand on the side looked for to set its latch. */
  public long latchNanos(int port) {
    return latchNanos[port];
  }

  @Override
  public void events(boolean wetting, boolean touch, long nanos) {
    follow(nanos);
    if (touch != this.touch) {
      this.touch = touch;
      Arrays.fill(sinceNanos, nanos);
      latched = 0;
    }
  }

  @Override
  public void latchChain(long word, long nanos) {
    follow(nanos);
    long bits = topologies.board().circuitBits(word);
    if (bits != chain) {
      chain = bits;
      course = course(bits);
      changedNanos = nanos;
      above = 0;
      settledNanos = -1; // the course as it is: worked out when somebody looks too early
    }
    latched = 0;
    blindUntilNanos = nanos + blindNanos;
  }

  @Override
  public void capture(long nanos) {
    follow(nanos);
    wordRegister = above;
    latchRegister = latched;
    latched = 0;
    latch(nanos);
  }

  @Override
  public int word() {
    return wordRegister;
  }

  @Override
  public int latches() {
    return latchRegister;
  }

  /** Lets the copper tell what has become of relays and wetting, then goes on to this moment. */
  private void follow(long nanos) {
    copper.connected(nanos);
    advance(nanos);
  }

  private void switched(boolean relays, boolean wet, long nanos) {
    if (relays != relaysClosed || wet != wetted) {
      advance(nanos);
      relaysClosed = relays;
      wetted = wet;
      change(nanos);
    }
  }

  private void advance(long nanos) {
    if (nanos < now) {
      throw new IllegalArgumentException("nanos=" + nanos + " before " + now);
    }
    while (epochs.nextNanos() <= nanos) {
      long next = epochs.nextNanos();
      pass(next);
      epochs.turn();
      change(next);
    }
    pass(nanos);
  }

  /** Up to a moment, with nothing but time changing. */
  private void pass(long nanos) {
    if (settledNanos < 0) {
      long settled = changedNanos + course.settledNanos();
      if (settled <= blindUntilNanos && blindUntilNanos + longestLatchNanos <= nanos) {
        above = course.above();
        settledNanos = settled;
        Arrays.fill(sinceNanos, changedNanos);
        latched |= side();
        now = nanos;
        return;
      }
      workOut();
    }
    if (now < settledNanos) {
      for (int p = 0; p < PORTS; p++) {
        if (crossNanos[p] <= nanos) {
          cross(p, crossNanos[p]);
        }
      }
    }
    latch(nanos);
    now = nanos;
  }

  /** Turns the course after a change of the crosspoint into crossings. */
  private void workOut() {
    Arrays.fill(changedVolts, 0);
    Arrays.fill(sinceNanos, changedNanos);
    for (int p = 0; p < PORTS; p++) {
      long rise = course.riseNanos()[p];
      crossNanos[p] = rise == NEVER ? NEVER : changedNanos + rise;
    }
    settledNanos = changedNanos + course.settledNanos();
  }

  /** A comparator turns over. */
  private void cross(int p, long nanos) {
    crossNanos[p] = NEVER;
    if ((side() & 1 << p) != 0 && latchTime(p) <= nanos) {
      latched |= 1 << p;
    }
    above ^= 1 << p;
    sinceNanos[p] = nanos;
  }

  /** Sets the latches of ports that stand on the side looked for. */
  private void latch(long nanos) {
    for (int rest = side() & ~latched; rest != 0; rest &= rest - 1) {
      int p = Integer.numberOfTrailingZeros(rest);
      if (latchTime(p) <= nanos) {
        latched |= 1 << p;
      }
    }
  }

  private long latchTime(int p) {
    return Math.max(sinceNanos[p] + latchNanos[p], blindUntilNanos);
  }

  private int side() {
    return touch ? ~above & ALL : above;
  }

  /** Relays, wetting or copper have changed: every port goes on from where it is. */
  private void change(long nanos) {
    if (settledNanos < 0) {
      workOut();
    }
    double[] volts = new double[PORTS];
    for (int p = 0; p < PORTS; p++) {
      volts[p] = volts(p, nanos);
    }
    course = course(chain);
    System.arraycopy(volts, 0, changedVolts, 0, PORTS);
    changedNanos = nanos;
    settledNanos = nanos;
    for (int p = 0; p < PORTS; p++) {
      double rest = course.levels().restVolts()[p];
      crossNanos[p] = NEVER;
      if (rest > thresholdVolts[p] != ((above & 1 << p) != 0)) {
        double share = (rest - volts[p]) / (rest - thresholdVolts[p]);
        double seconds = course.levels().tauSeconds()[p] * Math.log(Math.max(1, share));
        long at = nanos + (long) Math.ceil(seconds * 1e9);
        if (at == nanos) {
          cross(p, nanos);
        } else {
          crossNanos[p] = at;
          settledNanos = Math.max(settledNanos, at);
        }
      }
    }
  }

  private double volts(int p, long nanos) {
    double rest = course.levels().restVolts()[p];
    double tau = course.levels().tauSeconds()[p];
    double gone = (nanos - changedNanos) * 1e-9;
    return tau <= 0 ? rest : rest + (changedVolts[p] - rest) * Math.exp(-gone / tau);
  }

  /** As if it had been so for ever. */
  private void rest() {
    for (int p = 0; p < PORTS; p++) {
      changedVolts[p] = course.levels().restVolts()[p];
      crossNanos[p] = NEVER;
    }
    above = course.above();
  }

  private Courses.Course course(long bits) {
    return courses.at(bits, relaysClosed, wetted);
  }
}
