package bellwire.analysis.vigil;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * Finds touches in the readings of a touch vigil, each taken in the code after the one before. A
 * conductor that is driven and pulled low touches one that is held; in which codes it is low tells
 * which. From two rounds on a touch of two is decided; a shorter one leaves those that may be the
 * other. Works as the readings come, in memory that does not grow. Theory (110) to (112).
 */
public final class TouchDecoder {
  /** From one code to the next. */
  public static final long TICK_MICROS = 1000;

  private final TouchCodes codes;
  private final EventLimits limits;
  private final Consumer<Touch> sink;
  private final long roundMicros;
  private final int[] driven;

  /** By port, where it shows. */
  private final List<TouchTrack> open = new ArrayList<>();

  /** No longer showing, while another that began with it still is. */
  private final List<TouchTrack> ended = new ArrayList<>();

  private boolean started;
  private long sinceMicros;
  private long known;
  private long watchedMicros;
  private long dropped;

  /**
   * @param ports the cable's conductors, bit 0 for P1
   * @param sink told touches as they end, so not in the order in which they begin
   */
  public TouchDecoder(int ports, EventLimits limits, Consumer<Touch> sink) {
    codes = new TouchCodes(ports);
    this.limits = limits;
    this.sink = sink;
    roundMicros = codes.codes() * TICK_MICROS;
    driven = new int[codes.codes()];
    for (int code = 0; code < driven.length; code++) {
      driven[code] = codes.driven(code);
    }
  }

  /**
   * Readings in a row that all gave the same bits, a tick apart.
   *
   * @param firstMicros of the first of them
   * @param lastMicros of the last; the same for a single one
   * @param code in force before the first of them; each reading is followed by the next code
   * @param word driven conductors that were low at each reading
   * @param latched driven conductors that were low at any time since the reading before; of each
   */
  public void accept(long firstMicros, long lastMicros, int code, int word, int latched) {
    check(firstMicros, lastMicros, code, word | latched);
    boolean joins = started && firstMicros - known <= limits.gapMicros();
    if (!joins) {
      cut();
      sinceMicros = firstMicros;
    }
    watchedMicros += lastMicros - firstMicros + (joins ? firstMicros - known : 0);
    started = true;
    long ticks = (lastMicros - firstMicros + TICK_MICROS / 2) / TICK_MICROS + 1;
    boolean shows = (word | latched) != 0;
    for (long i = 0; i < ticks && (shows || !open.isEmpty() || !ended.isEmpty()); i++) {
      long micros = Math.min(lastMicros, firstMicros + i * TICK_MICROS);
      tick(micros, (int) ((code + i) % driven.length), word, latched);
    }
    known = lastMicros;
  }

  /** Nothing follows: what still touches is cut. */
  public void finish() {
    cut();
    started = false;
  }

  /** Time between readings that belong together: what a rate is to be divided by. */
  public long watchedMicros() {
    return watchedMicros;
  }

  /** Codes in a round. */
  public int codes() {
    return driven.length;
  }

  /** Touches that can't have lasted {@link EventLimits#leastMicros}. */
  public long dropped() {
    return dropped;
  }

  private void tick(long micros, int code, int word, int latched) {
    known = micros;
    int low = (word | latched) & driven[code];
    for (int i = open.size() - 1; i >= 0; i--) {
      TouchTrack track = open.get(i);
      if (micros - track.lastMicros() > patience(track)) {
        end(i);
      }
    }
    if (!ended.isEmpty()) {
      settle();
    }
    int begins = low;
    for (TouchTrack track : open) {
      int bit = 1 << track.port();
      if ((low & bit) != 0) {
        track.shows(micros, code, (word & bit) != 0, driven.length);
        begins &= ~bit;
      } else {
        track.passes(code);
      }
    }
    for (; begins != 0; begins &= begins - 1) {
      int port = Integer.numberOfTrailingZeros(begins);
      boolean held = (word >> port & 1) != 0;
      open.add(new TouchTrack(port, codes.number(port), sinceMicros, micros, code, held));
    }
    for (TouchTrack track : open) {
      if ((low >> track.port() & 1) != 0) {
        low(track, micros, code);
      }
    }
  }

  private void low(TouchTrack track, long micros, int code) {
    int beside = 0;
    int others = 0;
    for (TouchTrack each : open) {
      if (each != track && micros - each.lastMicros() <= roundMicros) {
        beside |= 1 << each.port();
        others |= beganWith(each, track) ? 0 : 1 << each.port();
      }
    }
    track.low(code, beside, others);
  }

  /** How long it may go without showing and be the same touch still. */
  private long patience(TouchTrack track) {
    // Half a tick more, for readings do not come to the microsecond.
    long round = track.held() ? roundMicros : 0;
    return Math.max(round, limits.rejoinMicros()) + TICK_MICROS / 2;
  }

  private void end(int index) {
    ended.add(open.remove(index));
  }

  private void cut() {
    ended.addAll(open);
    open.clear();
    settle();
    sinceMicros = known;
  }

  /** Tells of those that ended and wait for no other. */
  private void settle() {
    for (int i = 0; i < ended.size(); ) {
      TouchTrack one = ended.get(i);
      if (open.stream().anyMatch(o -> beganWith(one, o) && known - one.lastMicros() <= wait(o))) {
        i++;
        continue;
      }
      List<TouchTrack> group = new ArrayList<>();
      for (TouchTrack each : ended) {
        if (each == one || beganWith(one, each) && endedWith(one, each)) {
          group.add(each);
        }
      }
      ended.removeAll(group);
      tell(group);
      i = 0;
    }
  }

  private long wait(TouchTrack open) {
    return 2 * roundMicros + patience(open);
  }

  private boolean beganWith(TouchTrack a, TouchTrack b) {
    return Math.abs(a.firstMicros - b.firstMicros) <= roundMicros;
  }

  private boolean endedWith(TouchTrack a, TouchTrack b) {
    return Math.abs(a.lastMicros() - b.lastMicros()) <= roundMicros;
  }

  private void tell(List<TouchTrack> group) {
    if (group.size() == 1) {
      TouchTrack alone = group.get(0);
      tell(group, alone.others(codes));
      return;
    }
    int drivenPorts = 0;
    for (TouchTrack each : group) {
      drivenPorts |= 1 << each.port();
    }
    if (explains(group, drivenPorts)) {
      tell(group, 0);
      return;
    }
    int others = 0; // M among them at least, which is held in every code
    for (int left = codes.everything() & ~drivenPorts; left != 0; left &= left - 1) {
      others |= explains(group, drivenPorts | left & -left) ? left & -left : 0;
    }
    tell(group, others);
  }

  /** Whether all these, hanging together, are low where they were seen low. */
  private boolean explains(List<TouchTrack> group, int members) {
    int somewhereHeld = 0;
    for (int left = members; left != 0; left &= left - 1) {
      somewhereHeld |= ~codes.number(Integer.numberOfTrailingZeros(left));
    }
    for (TouchTrack each : group) {
      if ((each.low() & ~somewhereHeld) != 0) {
        return false;
      }
    }
    return true;
  }

  private void tell(List<TouchTrack> group, int others) {
    TouchTrack begins = group.get(0);
    TouchTrack ends = group.get(0);
    int drivenPorts = 0;
    long heldMicros = Long.MIN_VALUE;
    for (TouchTrack each : group) {
      begins = each.firstMicros < begins.firstMicros ? each : begins;
      ends = each.lastMicros() > ends.lastMicros() ? each : ends;
      drivenPorts |= 1 << each.port();
      heldMicros = Math.max(heldMicros, each.heldMicros());
    }
    int back = 0;
    int on = 0;
    for (int left = others == 0 ? drivenPorts : others; left != 0; left &= left - 1) {
      int other = codes.number(Integer.numberOfTrailingZeros(left));
      back = other == begins.number() ? back : Math.max(back, begins.ticksBefore(other, codes()));
      on = other == ends.number() ? on : Math.max(on, ends.ticksAfter(other, codes()));
    }
    long before = begins.firstMicros - back * TICK_MICROS;
    long after = ends.lastMicros() + on * TICK_MICROS;
    Touch touch =
        new Touch(
            drivenPorts,
            others,
            Math.max(before, begins.sinceMicros),
            begins.firstMicros,
            Math.max(heldMicros, begins.firstMicros),
            Math.min(after, Math.max(known, ends.lastMicros())),
            heldMicros == Long.MIN_VALUE,
            before < begins.sinceMicros,
            after > known);
    if (!touch.cut() && touch.mostMicros() <= limits.leastMicros()) {
      dropped++;
    } else {
      sink.accept(touch);
    }
  }

  private void check(long firstMicros, long lastMicros, int code, int word) {
    if (lastMicros < firstMicros || started && firstMicros <= known) {
      throw new IllegalArgumentException(
          "not in order of time: knownMicros="
              + known
              + " firstMicros="
              + firstMicros
              + " lastMicros="
              + lastMicros);
    }
    if (code < 0 || code >= driven.length || (word & ~codes.ports()) != 0) {
      throw new IllegalArgumentException(
          "code=" + code + " word=" + word + " ports=" + codes.ports());
    }
  }
}
