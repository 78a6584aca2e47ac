package bellwire.analysis.loop;

import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The equipment: all that is on the near side of the cable, outdoor unit and accessories included.
 *
 * @param terminals where the cable's near ends can be landed, in the board's order
 * @param elements between its points; unique names
 * @param wanted what must run, by call; a call that is missing is served as the stage below it is
 */
public record Equipment(
    String title, List<String> terminals, List<Element> elements, Map<Call, Wanted> wanted) {

  /**
   * What one call is to run.
   *
   * @param must names of loads
   * @param may names of loads that do no harm
   */
  public record Wanted(Set<String> must, Set<String> may) {
    public static final Wanted NOTHING = new Wanted(Set.of(), Set.of());

    public Wanted {
      must = Set.copyOf(must);
      may = Set.copyOf(may);
    }
  }

  public Equipment {
    terminals = List.copyOf(terminals);
    elements = List.copyOf(elements);
    wanted = Map.copyOf(wanted);
  }

  /** What must and may run on a call. */
  public Wanted wantedOn(Call call) {
    for (Call c = call; c != Call.NONE; c = c.below()) {
      Wanted here = wanted.get(c);
      if (here != null) {
        return here;
      }
    }
    return wanted.getOrDefault(Call.NONE, Wanted.NOTHING);
  }

  /** All elements of a kind. */
  public <E extends Element> List<E> all(Class<E> kind) {
    return elements.stream().filter(kind::isInstance).map(kind::cast).toList();
  }
}
