package bellwire.app.document.type;

import bellwire.app.document.type.Cluster.Way;
import bellwire.app.document.type.Piece.Look;
import java.awt.Shape;
import java.awt.font.TextLayout;
import java.text.Bidi;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;

/** Puts one line's clusters where they are seen, by the Unicode bidirectional algorithm. */
final class LineSetter {
  /** Of the fonts used, in shares of their size. */
  static final double ASCENT = 0.93;

  static final double DESCENT = 0.24;

  private static final Map<Integer, Integer> MIRRORED =
      Map.ofEntries(
          Map.entry((int) '(', (int) ')'),
          Map.entry((int) ')', (int) '('),
          Map.entry((int) '[', (int) ']'),
          Map.entry((int) ']', (int) '['),
          Map.entry((int) '{', (int) '}'),
          Map.entry((int) '}', (int) '{'),
          Map.entry((int) '<', (int) '>'),
          Map.entry((int) '>', (int) '<'),
          Map.entry(0xAB, 0xBB),
          Map.entry(0xBB, 0xAB));

  private final Clusters clusters;

  LineSetter(Clusters clusters) {
    this.clusters = clusters;
  }

  /** Clusters alike, and in one direction. */
  private record Run(List<Cluster> clusters, boolean leftwards) {}

  /**
   * @param bidi of the whole paragraph
   * @param from first cluster of the line
   * @param to behind the last
   */
  TextLine line(String text, Bidi bidi, List<Cluster> all, int from, int to, double size) {
    List<Run> runs = new ArrayList<>();
    List<Byte> levels = new ArrayList<>();
    for (int i = from; i < to; ) {
      int level = bidi.getLevelAt(all.get(i).start());
      int j = i + 1;
      while (j < to
          && all.get(j).alike(all.get(i))
          && bidi.getLevelAt(all.get(j).start()) == level) {
        j++;
      }
      runs.add(new Run(all.subList(i, j), level % 2 == 1));
      levels.add((byte) level);
      i = j;
    }
    byte[] order = new byte[levels.size()];
    for (int i = 0; i < order.length; i++) {
      order[i] = levels.get(i);
    }
    Object[] seen = runs.toArray();
    if (seen.length > 0) {
      Bidi.reorderVisually(order, 0, seen, 0, seen.length);
    }
    List<Piece> pieces = new ArrayList<>();
    double x = 0;
    double most = size;
    for (Object each : seen) {
      Run run = (Run) each;
      most = Math.max(most, run.clusters().get(0).look().size());
      x = add(pieces, text, run, x);
    }
    String read = from == to ? "" : text.substring(all.get(from).start(), all.get(to - 1).end());
    return new TextLine(read, pieces, x, ASCENT * most, DESCENT * most);
  }

  private double add(List<Piece> pieces, String text, Run run, double x) {
    Cluster first = run.clusters().get(0);
    Look look = first.look();
    List<Cluster> seen = new ArrayList<>(run.clusters());
    if (run.leftwards()) {
      Collections.reverse(seen);
    }
    double width = seen.stream().mapToDouble(Cluster::width).sum();
    switch (first.way()) {
      case LETTERS ->
          pieces.add(new Piece.Letters(first.face(), seen(text, seen, run), x, width, look));
      case OUTLINE -> {
        String logical =
            text.substring(first.start(), run.clusters().get(run.clusters().size() - 1).end());
        TextLayout layout = clusters.layout(logical, first.face(), look);
        Shape outline = layout.getOutline(null);
        width = layout.getAdvance();
        pieces.add(new Piece.Outline(first.face(), outline, seen(text, seen, run), x, width, look));
      }
      case MISSING -> {
        for (Cluster c : seen) {
          pieces.add(new Piece.Missing(text.codePointAt(c.start()), x, c.width(), look));
          x += c.width();
        }
        return x;
      }
      case NOTHING -> {
        return x;
      }
    }
    return x + width;
  }

  private static String seen(String text, List<Cluster> order, Run run) {
    StringBuilder out = new StringBuilder();
    for (Cluster c : order) {
      text.substring(c.start(), c.end())
          .codePoints()
          .filter(p -> !Clusters.isIgnored(p))
          .map(p -> run.leftwards() ? MIRRORED.getOrDefault(p, p) : p)
          .forEach(out::appendCodePoint);
    }
    return out.toString();
  }

  static boolean isNothing(Cluster c) {
    return c.way() == Way.NOTHING;
  }
}
