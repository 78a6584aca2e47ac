package bellwire.analysis.vigil;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Events that began together. Theory (97).
 *
 * @param firstMicros when the first of them began
 * @param ports bit i: port i took part
 * @param kind what that says
 * @param suspect where the cause is, bit by bit: the ports themselves, or the one that all share
 */
public record Together(long firstMicros, int ports, Kind kind, int suspect) {

  /** What it says that just these went together. */
  public enum Kind {
    ONE,
    SEVERAL,
    /** All but one: the current of all comes back over that one. */
    COMMON,
    /** Of two conductors one: it is that one, or the other. */
    EITHER,
    /** All, the common one included: the plug, or the board. */
    ALL
  }

  /**
   * Groups events by when they began. A group reaches from its first event on for the tolerance, so
   * a chain of events close to one another does not grow into one.
   *
   * @param events in any order
   * @param cable bit i: port i has a conductor, whether or not its opening can show
   * @param toleranceMicros one tick or more, for readings of one tick are not at one moment
   */
  public static List<Together> of(List<VigilEvent> events, int cable, long toleranceMicros) {
    if (toleranceMicros < 0) {
      throw new IllegalArgumentException("toleranceMicros=" + toleranceMicros);
    }
    List<VigilEvent> ordered = new ArrayList<>(events);
    ordered.sort(Comparator.comparingLong(VigilEvent::firstMicros));
    List<Together> groups = new ArrayList<>();
    int i = 0;
    while (i < ordered.size()) {
      long begin = ordered.get(i).firstMicros();
      int ports = 0;
      while (i < ordered.size() && ordered.get(i).firstMicros() - begin <= toleranceMicros) {
        ports |= 1 << ordered.get(i++).port();
      }
      groups.add(group(begin, ports, cable));
    }
    return groups;
  }

  private static Together group(long begin, int ports, int cable) {
    if ((ports & ~cable) != 0) {
      throw new IllegalArgumentException("an event outside the cable: ports=" + ports);
    }
    int rest = cable & ~ports;
    boolean one = Integer.bitCount(ports) == 1;
    if (rest == 0) {
      return new Together(begin, ports, one ? Kind.ONE : Kind.ALL, ports);
    }
    if (Integer.bitCount(rest) == 1) {
      return one
          ? new Together(begin, ports, Kind.EITHER, cable)
          : new Together(begin, ports, Kind.COMMON, rest);
    }
    return new Together(begin, ports, one ? Kind.ONE : Kind.SEVERAL, ports);
  }
}
