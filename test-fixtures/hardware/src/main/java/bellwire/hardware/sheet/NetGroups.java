package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Which pins of a net are near enough to be wired. */
final class NetGroups {
  private NetGroups() {}

  /**
   * @param ends pins with their ways out
   * @param reach two pins no further apart than this are in one group, at 0 none are
   */
  static List<Map<Cell, Direction>> of(Map<Cell, Direction> ends, int reach) {
    List<Map<Cell, Direction>> groups = new ArrayList<>();
    ends.forEach(
        (end, out) -> {
          Map<Cell, Direction> group = new LinkedHashMap<>();
          group.put(end, out);
          for (Map<Cell, Direction> other : List.copyOf(groups)) {
            if (other.keySet().stream().anyMatch(cell -> cell.distance(end) <= reach)) {
              groups.remove(other);
              group.putAll(other);
            }
          }
          groups.add(group);
        });
    return groups;
  }
}
