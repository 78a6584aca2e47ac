package bellwire.analysis.landing;

import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What an equipment does when its terminals are joined in groups: all that cable and control can do
 * to it. Copper is ideal here, and a load runs where its two ends are joined to the two ends of one
 * transformer. Theory (90).
 */
final class NearEffects {
  private static final int MOST_LOADS = 64;

  /**
   * @param sure loads that run for certain, a bit each in the equipment's order
   * @param possible loads that may run, whatever contacts do
   * @param shorted whether the two ends of a transformer are joined
   */
  record Effect(long sure, long possible, boolean shorted, int[] netOfTerminal, int[][] poles) {
    /** Whether two terminals may be joined to the two ends of one transformer. */
    boolean across(int terminal, int other) {
      int a = netOfTerminal[terminal];
      int b = netOfTerminal[other];
      for (int[] pole : poles) {
        if (pole[0] == a && pole[1] == b || pole[0] == b && pole[1] == a) {
          return true;
        }
      }
      return false;
    }
  }

  private final List<Load> loads;
  private final int[][] loadEnds;
  private final int[][] supplyEnds;
  private final List<Switching> switchings = new ArrayList<>();
  private final Map<Point, Integer> points = new HashMap<>();
  private final int[] terminals;
  private final long[] behind;
  private final boolean[] supplying;
  private long switching;
  private final Groups copper;
  private final Map<Key, Effect> known = new HashMap<>();

  /** Groups of terminals: for each the lowest terminal of its group. */
  private record Key(int[] group) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Key key && Arrays.equals(group, key.group);
    }

    @Override
    public int hashCode() {
      return Arrays.hashCode(group);
    }
  }

  /** A contact between two points, and the bits of the load that moves it. */
  private record Switching(int a, int b, long load, boolean normallyOpen) {}

  NearEffects(Equipment equipment) {
    loads = equipment.all(Load.class);
    if (loads.size() > MOST_LOADS) {
      throw new IllegalArgumentException("loads=" + loads.size());
    }
    terminals = equipment.terminals().stream().mapToInt(t -> index(Point.near(t))).toArray();
    for (Element e : equipment.elements()) {
      index(e.a());
      index(e.b());
    }
    copper = new Groups(points.size());
    for (Element e : equipment.elements()) {
      if (!(e instanceof Load || e instanceof Transformer || e instanceof Contact)) {
        copper.join(index(e.a()), index(e.b()));
      }
    }
    loadEnds = ends(loads);
    supplyEnds = ends(equipment.all(Transformer.class));
    for (Contact c : equipment.all(Contact.class)) {
      switchings.add(
          new Switching(index(c.a()), index(c.b()), bits(Set.of(c.load())), c.normallyOpen()));
    }
    switchings.forEach(s -> switching |= s.load());
    behind = new long[terminals.length];
    supplying = new boolean[terminals.length];
    lookBehind();
  }

  private void lookBehind() {
    Groups all = copper.copy();
    switchings.forEach(s -> all.join(s.a(), s.b()));
    for (int t = 0; t < terminals.length; t++) {
      int island = all.of(terminals[t]);
      for (int i = 0; i < loadEnds.length; i++) {
        if (all.of(loadEnds[i][0]) == island || all.of(loadEnds[i][1]) == island) {
          behind[t] |= 1L << i;
        }
      }
      for (int[] ends : supplyEnds) {
        supplying[t] |= all.of(ends[0]) == island || all.of(ends[1]) == island;
      }
    }
  }

  /** Whether a terminal is an end of a transformer, or may become one by a contact. */
  boolean supplies(int terminal) {
    return supplying[terminal];
  }

  /** Bits of the loads whose one end is a terminal, or may become it by a contact. */
  long behind(int terminal) {
    return behind[terminal];
  }

  /** Bits of the loads that switch contacts. */
  long switching() {
    return switching;
  }

  /** Bits of the loads with these names. */
  long bits(Set<String> names) {
    long bits = 0;
    for (int i = 0; i < loads.size(); i++) {
      if (names.contains(loads.get(i).name())) {
        bits |= 1L << i;
      }
    }
    return bits;
  }

  /** Bits of the loads that only switch contacts, or do nothing of their own. */
  long harmless() {
    long bits = 0;
    for (int i = 0; i < loads.size(); i++) {
      if (loads.get(i).role() == Load.Role.NONE) {
        bits |= 1L << i;
      }
    }
    return bits;
  }

  /**
   * @param group for each terminal the lowest terminal of its group
   */
  Effect of(int[] group) {
    return known.computeIfAbsent(new Key(group.clone()), this::compute);
  }

  private Effect compute(Key key) {
    Groups joined = copper.copy();
    for (int t = 0; t < terminals.length; t++) {
      joined.join(terminals[t], terminals[key.group()[t]]);
    }
    Groups least = joined.copy();
    long sure = settle(least, false);
    long possible = settle(joined, true);
    int[][] poles = new int[supplyEnds.length][2];
    boolean shorted = false;
    for (int i = 0; i < poles.length; i++) {
      int[] ends = supplyEnds[i];
      shorted |= least.of(ends[0]) == least.of(ends[1]);
      poles[i][0] = joined.of(ends[0]);
      poles[i][1] = joined.of(ends[1]);
    }
    int[] nets = Arrays.stream(terminals).map(joined::of).toArray();
    return new Effect(sure, possible, shorted, nets, poles);
  }

  /**
   * Closes contacts until no further load pulls in.
   *
   * @param most what may run at most: contacts that open are taken to be closed, too
   */
  private long settle(Groups joined, boolean most) {
    for (long on = 0; ; ) {
      for (Switching s : switchings) {
        if (s.normallyOpen() ? (on & s.load()) != 0 : most) {
          joined.join(s.a(), s.b());
        }
      }
      long now = 0;
      for (int i = 0; i < loadEnds.length; i++) {
        if (fed(joined, loadEnds[i], most)) {
          now |= 1L << i;
        }
      }
      if (now == on) {
        return on;
      }
      on = now;
    }
  }

  private boolean fed(Groups joined, int[] load, boolean most) {
    int a = joined.of(load[0]);
    int b = joined.of(load[1]);
    for (int[] supply : supplyEnds) {
      int hot = joined.of(supply[0]);
      int common = joined.of(supply[1]);
      if ((most || hot != common) && (a == hot && b == common || a == common && b == hot)) {
        return true;
      }
    }
    return false;
  }

  private int[][] ends(List<? extends Element> elements) {
    return elements.stream().map(e -> new int[] {index(e.a()), index(e.b())}).toArray(int[][]::new);
  }

  private int index(Point point) {
    return points.computeIfAbsent(point, p -> points.size());
  }
}
