package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.survey.Assignment;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * How many ends of which conductor have to be moved for a connection between a terminal of the
 * equipment and one of the new control. Theory (91).
 */
final class MoveCosts {
  private static final double MOVE = 256;
  private static final double DISAGREEMENT = 16;
  private static final double BARRED = 9999;

  /** A conductor, by its place among those that may be used, for a connection. */
  record Use(int conductor, Connection connection) {}

  private final Equipment equipment;
  private final Control control;
  private final Cable cable;
  private final List<Landed> asFound;
  private final int conductors;
  private final int[][][] moves;
  private final List<Connection> kept = new ArrayList<>();
  private final int[] free;
  private final double[] preference;

  /**
   * @param asFound of the conductors that may be used
   */
  MoveCosts(Equipment equipment, Control control, Cable cable, List<Landed> asFound) {
    this.equipment = equipment;
    this.control = control;
    this.cable = cable;
    this.asFound = List.copyOf(asFound);
    conductors = asFound.size();
    int near = equipment.terminals().size();
    int far = control.terminals().size();
    moves = new int[conductors][near][far];
    free = new int[conductors];
    for (int c = 0; c < conductors; c++) {
      Landed was = asFound.get(c);
      for (int n = 0; n < near; n++) {
        for (int f = 0; f < far; f++) {
          boolean stays = equipment.terminals().get(n).equals(was.near());
          moves[c][n][f] = (stays ? 0 : 1) + (keeps(was, f) ? 0 : 1);
          Connection connection = new Connection(n, f);
          if (moves[c][n][f] == 0 && !kept.contains(connection)) {
            kept.add(connection);
          }
        }
      }
      free[c] = movesOf(was, loose(was));
    }
    preference = preferences();
  }

  int conductors() {
    return conductors;
  }

  /** Connections that a conductor makes as found. */
  List<Connection> kept() {
    return kept;
  }

  /** Moves from what a conductor was landed on to what it is to be landed on. */
  int movesOf(Landed was, Landed now) {
    String near = was.near();
    boolean nearStays = near == null ? now.near() == null : near.equals(now.near());
    return (nearStays ? 0 : 1) + (Letters.keeps(was.far(), now.far(), control.terminals()) ? 0 : 1);
  }

  /**
   * The cheapest landing of the usable conductors that makes every connection of a scheme; null
   * where there are too few. Among equals the trade's colours decide, then what is unused as found,
   * then the lesser resistance.
   */
  @Nullable List<Landed> cheapest(List<Connection> connections, Set<Use> barred) {
    if (connections.size() > conductors) {
      return null;
    }
    Landed[] idle = new Landed[conductors];
    double[][] cost = new double[conductors][conductors];
    for (int c = 0; c < conductors; c++) {
      Landed was = asFound.get(c);
      for (int r = 0; r < connections.size(); r++) {
        boolean bar = barred.contains(new Use(c, connections.get(r)));
        cost[r][c] = bar ? BARRED : cost(was, landed(was, connections.get(r))) + preference[c];
      }
      Landed best = loose(was);
      for (Connection connection : connections) {
        Landed beside = landed(was, connection);
        if (movesOf(was, beside) < movesOf(was, best)) {
          best = beside;
        }
      }
      idle[c] = best;
      for (int r = connections.size(); r < conductors; r++) {
        cost[r][c] = MOVE * movesOf(was, best);
      }
    }
    Map<String, Landed> landed = new HashMap<>();
    int[] columns = new Assignment(cost).columns();
    for (int r = 0; r < conductors; r++) {
      int c = columns[r];
      if (cost[r][c] == BARRED) {
        return null;
      }
      Landed now = r < connections.size() ? landed(asFound.get(c), connections.get(r)) : idle[c];
      landed.put(now.conductor(), now);
    }
    List<Landed> ordered = new ArrayList<>();
    asFound.forEach(was -> ordered.add(landed.getOrDefault(was.conductor(), was)));
    return ordered;
  }

  int moves(List<Landed> now) {
    int sum = 0;
    for (int c = 0; c < conductors; c++) {
      sum += movesOf(asFound.get(c), now.get(c));
    }
    return sum;
  }

  /**
   * A lower bound of the moves that a scheme needs: each connection the conductor that serves it
   * best, though it be the same for two.
   */
  int bound(List<Connection> connections) {
    int least = 0;
    int[] idle = new int[conductors];
    for (int c = 0; c < conductors; c++) {
      idle[c] = free[c];
      for (Connection k : connections) {
        idle[c] = Math.min(idle[c], moves[c][k.near()][k.far()]);
      }
      least += idle[c];
    }
    for (Connection k : connections) {
      int extra = Integer.MAX_VALUE;
      for (int c = 0; c < conductors; c++) {
        extra = Math.min(extra, moves[c][k.near()][k.far()] - idle[c]);
      }
      least += extra;
    }
    return least;
  }

  /** Moves, and what decides among equals, of all conductors. */
  double dearness(List<Landed> now) {
    double sum = 0;
    for (int c = 0; c < conductors; c++) {
      boolean joins = now.get(c).near() != null && now.get(c).far() != null;
      sum += cost(asFound.get(c), now.get(c)) + (joins ? preference[c] : 0);
    }
    return sum;
  }

  private Landed landed(Landed was, Connection connection) {
    return new Landed(
        was.conductor(),
        equipment.terminals().get(connection.near()),
        control.terminals().get(connection.far()));
  }

  private double cost(Landed was, Landed now) {
    Cable.Conductor c = cable.conductor(was.conductor());
    int disagreements =
        (ColourConvention.agrees(c.nearColour(), now.near()) ? 0 : 1)
            + (ColourConvention.agrees(c.farColour(), now.far()) ? 0 : 1);
    return MOVE * movesOf(was, now) + DISAGREEMENT * disagreements;
  }

  /** From 0 to below 8: first those free at both ends, then by resistance. */
  private double[] preferences() {
    List<Integer> byOhms = new ArrayList<>();
    for (int c = 0; c < conductors; c++) {
      byOhms.add(c);
    }
    byOhms.sort(
        Comparator.comparingInt((Integer c) -> idleAsFound(c) ? 0 : 1)
            .thenComparingDouble(c -> cable.conductor(asFound.get(c).conductor()).ohms()));
    double[] preference = new double[conductors];
    for (int rank = 0; rank < conductors; rank++) {
      preference[byOhms.get(rank)] = 8.0 * rank / conductors;
    }
    return preference;
  }

  private boolean idleAsFound(int c) {
    return asFound.get(c).near() == null && asFound.get(c).far() == null;
  }

  private boolean keeps(Landed was, int far) {
    return Letters.keeps(was.far(), control.terminals().get(far), control.terminals());
  }

  /** Out of use with the fewest moves: lifted at the control, where every one is lifted anyway. */
  private Landed loose(Landed was) {
    if (was.near() == null && was.far() != null) {
      for (String far : control.terminals()) {
        if (Letters.keeps(was.far(), far, control.terminals())) {
          return new Landed(was.conductor(), null, far);
        }
      }
    }
    return new Landed(was.conductor(), was.near(), null);
  }
}
