package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What a sheet joins, found from its lines alone: lines that share an end are joined, and lines
 * that meet otherwise where there is a dot.
 */
final class DrawnNets {
  /**
   * Pieces that are joined.
   *
   * @param pins as part and pin with a space between
   * @param names texts at it, the sheets they name left off
   * @param texts those texts in full
   */
  record Piece(Set<String> pins, Set<String> names, Set<String> texts) {}

  private record End(double x, double y, int node) {}

  private final DrawnSheet sheet;
  private final List<Integer> parents = new ArrayList<>();
  private final List<End> ends = new ArrayList<>();
  private final Map<Integer, Set<String>> pins = new HashMap<>();
  private final Map<Integer, Set<String>> texts = new HashMap<>();
  private final List<String> problems = new ArrayList<>();

  DrawnNets(DrawnSheet sheet) {
    this.sheet = sheet;
    List<DrawnSheet.Stroke> wires = sheet.strokes("wires");
    wires.forEach(wire -> node());
    for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
      if (!stroke.pin().isEmpty()) {
        int node = node();
        pins.put(node, new LinkedHashSet<>(Set.of(stroke.owner() + " " + stroke.pin())));
        ends.add(new End(stroke.x2(), stroke.y2(), node));
      }
    }
    join(wires);
    for (DrawnSheet.Text text : sheet.texts()) {
      if (text.kind().equals("net")) {
        name(text, wires);
      }
    }
  }

  List<String> problems() {
    return problems;
  }

  List<Piece> pieces() {
    Map<Integer, Piece> pieces = new LinkedHashMap<>();
    for (int i = 0; i < parents.size(); i++) {
      Piece piece =
          pieces.computeIfAbsent(
              root(i),
              key ->
                  new Piece(new LinkedHashSet<>(), new LinkedHashSet<>(), new LinkedHashSet<>()));
      piece.pins().addAll(pins.getOrDefault(i, Set.of()));
      for (String text : texts.getOrDefault(i, Set.of())) {
        piece.names().add(text.split(" /", 2)[0]);
        piece.texts().add(text);
      }
    }
    return List.copyOf(pieces.values());
  }

  private void join(List<DrawnSheet.Stroke> wires) {
    for (int i = 0; i < wires.size(); i++) {
      DrawnSheet.Stroke wire = wires.get(i);
      for (int j = 0; j < i; j++) {
        meet(wire, i, wires.get(j), j);
      }
      for (End end : ends) {
        if (wire.endsAt(end.x(), end.y())
            || (wire.at(end.x(), end.y()) && dotted(end.x(), end.y()))) {
          union(i, end.node());
        } else if (wire.at(end.x(), end.y())) {
          problems.add("a wire runs over a pin at " + end);
        }
      }
    }
    for (End a : ends) {
      for (End b : ends) {
        if (a.node() != b.node() && DrawnSheet.near(a.x(), a.y(), b.x(), b.y())) {
          union(a.node(), b.node());
        }
      }
    }
  }

  private void meet(DrawnSheet.Stroke a, int i, DrawnSheet.Stroke b, int j) {
    boolean shared = false;
    for (double[] end : List.of(new double[] {a.x1(), a.y1()}, new double[] {a.x2(), a.y2()})) {
      shared |= b.endsAt(end[0], end[1]);
      if (b.at(end[0], end[1]) && !b.endsAt(end[0], end[1])) {
        touch(end, i, j);
      }
    }
    for (double[] end : List.of(new double[] {b.x1(), b.y1()}, new double[] {b.x2(), b.y2()})) {
      if (a.at(end[0], end[1]) && !a.endsAt(end[0], end[1])) {
        touch(end, i, j);
      }
    }
    if (shared) {
      union(i, j);
    }
    for (DrawnSheet.Dot dot : sheet.dots()) {
      if (a.at(dot.x(), dot.y()) && b.at(dot.x(), dot.y())) {
        union(i, j);
      }
    }
  }

  private void touch(double[] at, int i, int j) {
    if (dotted(at[0], at[1])) {
      union(i, j);
    } else {
      problems.add("a wire ends on another without a dot at " + at[0] + ", " + at[1]);
    }
  }

  private boolean dotted(double x, double y) {
    return sheet.dots().stream().anyMatch(dot -> DrawnSheet.near(dot.x(), dot.y(), x, y));
  }

  /** A supply's name belongs to the end that its symbol touches, any other to the nearest end. */
  private void name(DrawnSheet.Text text, List<DrawnSheet.Stroke> wires) {
    List<End> near = new ArrayList<>(ends);
    for (int i = 0; i < wires.size(); i++) {
      near.add(new End(wires.get(i).x1(), wires.get(i).y1(), i));
      near.add(new End(wires.get(i).x2(), wires.get(i).y2(), i));
    }
    List<DrawnSheet.Stroke> symbol = sheet.beside(text);
    End best = null;
    double least = symbol.isEmpty() ? 1.5 : 0.01;
    for (End end : near) {
      double off =
          symbol.isEmpty()
              ? Math.hypot(
                  Math.max(
                      0, Math.max(text.box().getMinX() - end.x(), end.x() - text.box().getMaxX())),
                  Math.max(
                      0, Math.max(text.box().getMinY() - end.y(), end.y() - text.box().getMaxY())))
              : symbol.stream().anyMatch(stroke -> stroke.at(end.x(), end.y())) ? 0 : 9;
      if (off < least) {
        least = off;
        best = end;
      }
    }
    if (best == null) {
      problems.add("at nothing: " + text.words());
    } else {
      texts.computeIfAbsent(best.node(), node -> new LinkedHashSet<>()).add(text.words());
    }
  }

  private int node() {
    parents.add(parents.size());
    return parents.size() - 1;
  }

  private int root(int node) {
    int at = node;
    while (parents.get(at) != at) {
      at = parents.get(at);
    }
    return at;
  }

  private void union(int a, int b) {
    parents.set(root(a), root(b));
  }
}
