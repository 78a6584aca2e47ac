package bellwire.analysis.vigil;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Explains touches, decided or not, by the fewest pairs: always by the pair that fits most of those
 * that are left. Where others fit just the same ones, it is one of them. Theory (112).
 */
final class TouchPairs {
  private TouchPairs() {}

  /** Touches of each subject, in the order of how many it explains. */
  static Map<Subject, List<Touch>> of(List<Touch> touches) {
    Map<Subject, List<Touch>> found = new LinkedHashMap<>();
    Map<Integer, List<Touch>> byPair = new HashMap<>();
    List<Touch> clusters = new ArrayList<>();
    for (Touch touch : touches) {
      List<Integer> pairs = pairs(touch);
      if (pairs.isEmpty()) {
        clusters.add(touch);
      }
      for (int pair : pairs) {
        byPair.computeIfAbsent(pair, k -> new ArrayList<>()).add(touch);
      }
    }
    Set<Touch> left = new HashSet<>(touches);
    left.removeAll(clusters);
    while (!left.isEmpty()) {
      byPair.values().forEach(each -> each.retainAll(left));
      byPair.values().removeIf(List::isEmpty);
      List<Touch> most = List.of();
      for (List<Touch> each : byPair.values()) {
        most = each.size() > most.size() ? each : most;
      }
      int common = -1;
      int any = 0;
      for (Map.Entry<Integer, List<Touch>> each : byPair.entrySet()) {
        if (each.getValue().equals(most)) {
          common &= each.getKey();
          any |= each.getKey();
        }
      }
      List<Touch> explained = List.copyOf(most);
      found.put(subject(common, any), explained);
      explained.forEach(left::remove);
    }
    for (Touch each : clusters) {
      found
          .computeIfAbsent(
              new Subject(Happening.TOUCH, each.drivenPorts(), each.possibleOthers()),
              k -> new ArrayList<>())
          .add(each);
    }
    return found;
  }

  /** A pair that shares both is known; one that shares one port has several for the other. */
  private static Subject subject(int common, int any) {
    return Integer.bitCount(any) == 2
        ? new Subject(Happening.TOUCH, any, 0)
        : new Subject(Happening.TOUCH, common, any & ~common);
  }

  /** Pairs that a touch may be, as masks; none where more than two took part. */
  private static List<Integer> pairs(Touch touch) {
    List<Integer> pairs = new ArrayList<>();
    int driven = touch.drivenPorts();
    if (Integer.bitCount(driven) == 2 && touch.possibleOthers() == 0) {
      pairs.add(driven);
    } else if (Integer.bitCount(driven) == 1) {
      for (int left = touch.possibleOthers(); left != 0; left &= left - 1) {
        pairs.add(driven | left & -left);
      }
    }
    return pairs;
  }
}
