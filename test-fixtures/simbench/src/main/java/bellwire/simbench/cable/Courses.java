package bellwire.simbench.cable;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What the wetted ports do after a change of the crosspoint, when all begin at common, by the state
 * of cable and switches; worked out once and kept.
 */
final class Courses {
  static final long NEVER = Long.MAX_VALUE;

  private static final int PORTS = WettedLevels.PORTS;
  private static final int STATES_KEPT = 256;
  private static final int WORDS_KEPT = 32;

  /**
   * Levels with what follows from them.
   *
   * @param riseNanos after which a port crosses its threshold; {@link #NEVER}
   * @param settledNanos after which none does
   * @param above who is above then
   */
  record Course(WettedLevels levels, long[] riseNanos, long settledNanos, int above) {}

  /** What decides where the ports come to rest. */
  private record State(Epoch.Key epoch, BoardCircuit.Switches switches) {}

  private final Topologies topologies;
  private final Epochs epochs;
  private final double[] thresholdVolts;
  private final int[] innerNodes = new int[PORTS];
  private final Map<State, Course> byState =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<State, Course> eldest) {
          return size() > STATES_KEPT;
        }
      };

  /** By crosspoint word, under the epoch, relays and wetting that were asked for last. */
  private final long[] knownWords = new long[WORDS_KEPT];

  private final Course[] knownCourses = new Course[WORDS_KEPT];
  private int known;
  private Epoch.Key epoch;
  private boolean relaysClosed;
  private boolean wetted;

  /**
   * @param thresholdVolts of each port's comparator
   */
  Courses(Topologies topologies, Epochs epochs, double[] thresholdVolts) {
    this.topologies = topologies;
    this.epochs = epochs;
    this.thresholdVolts = thresholdVolts;
    epoch = epochs.current().key();
    for (int p = 0; p < PORTS; p++) {
      innerNodes[p] = Nodes.inner(p);
    }
  }

  /** In the present epoch. */
  Course at(long bits, boolean relaysClosed, boolean wetted) {
    forget(relaysClosed, wetted);
    for (int i = 0; i < known; i++) {
      if (knownWords[i] == bits) {
        return knownCourses[i];
      }
    }
    BoardCircuit.Switches switches = new BoardCircuit.Switches(bits, relaysClosed, false, wetted);
    State state = new State(epoch, switches);
    Course found = byState.get(state);
    if (found == null) {
      found =
          fromCommon(WettedLevels.of(topologies.circuit(epochs.current(), switches), innerNodes));
      byState.put(state, found);
    }
    known = known < WORDS_KEPT ? known + 1 : 1;
    knownWords[known - 1] = bits;
    knownCourses[known - 1] = found;
    return found;
  }

  private void forget(boolean relaysClosed, boolean wetted) {
    Epoch.Key current = epochs.current().key();
    if (current.equals(epoch) && relaysClosed == this.relaysClosed && wetted == this.wetted) {
      return;
    }
    if (current.wandered() != epoch.wandered()) {
      byState.clear(); // no joint comes back to where it was
    }
    epoch = current;
    this.relaysClosed = relaysClosed;
    this.wetted = wetted;
    known = 0;
  }

  private Course fromCommon(WettedLevels levels) {
    long[] rise = new long[PORTS];
    long settled = 0;
    int above = 0;
    for (int p = 0; p < PORTS; p++) {
      double rest = levels.restVolts()[p];
      rise[p] = NEVER;
      if (rest > thresholdVolts[p]) {
        double seconds = levels.tauSeconds()[p] * Math.log(rest / (rest - thresholdVolts[p]));
        rise[p] = Math.max(1, (long) Math.ceil(seconds * 1e9));
        settled = Math.max(settled, rise[p]);
        above |= 1 << p;
      }
    }
    return new Course(levels, rise, settled, above);
  }
}
