package bellwire.app.document.type;

import bellwire.app.document.type.Cluster.Way;
import bellwire.app.document.type.Piece.Look;
import java.awt.font.FontRenderContext;
import java.awt.font.TextLayout;
import java.lang.Character.UnicodeScript;
import java.text.BreakIterator;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntFunction;

/** Takes a text apart into what is drawn in one way each. */
final class Clusters {
  /** Exact places, not a screen's. */
  static final FontRenderContext EXACT = new FontRenderContext(null, true, true);

  /** Their letters stand side by side as they are; all others are shaped. */
  private static final Set<UnicodeScript> SIDE_BY_SIDE =
      EnumSet.of(
          UnicodeScript.LATIN,
          UnicodeScript.GREEK,
          UnicodeScript.CYRILLIC,
          UnicodeScript.ARMENIAN,
          UnicodeScript.GEORGIAN,
          UnicodeScript.HEBREW,
          UnicodeScript.HAN,
          UnicodeScript.HIRAGANA,
          UnicodeScript.KATAKANA,
          UnicodeScript.BOPOMOFO,
          UnicodeScript.HANGUL,
          UnicodeScript.COMMON,
          UnicodeScript.INHERITED,
          UnicodeScript.UNKNOWN);

  private final Faces faces;

  Clusters(Faces faces) {
    this.faces = faces;
  }

  /**
   * @param lookAt how the character at an index looks
   */
  List<Cluster> of(String text, IntFunction<Look> lookAt) {
    List<Cluster> all = new ArrayList<>();
    BreakIterator characters = BreakIterator.getCharacterInstance(Locale.ROOT);
    characters.setText(text);
    int start = characters.first();
    for (int end = characters.next(); end != BreakIterator.DONE; end = characters.next()) {
      // A box is one character's.
      for (int from = start; from < end; ) {
        Cluster one = cluster(text, from, end, lookAt.apply(from));
        all.add(one);
        from = one.end();
      }
      start = end;
    }
    return joined(text, all);
  }

  private Cluster cluster(String text, int start, int end, Look look) {
    int[] drawn = text.substring(start, end).codePoints().filter(c -> !isIgnored(c)).toArray();
    if (drawn.length == 0) {
      return new Cluster(start, end, Way.NOTHING, look.face(), look, 0);
    }
    Optional<Face> face = having(drawn, look.face());
    if (face.isPresent()) {
      Way way = drawn.length > 1 || isShaped(drawn[0]) ? Way.OUTLINE : Way.LETTERS;
      double width = way == Way.OUTLINE ? 0 : look.size() * faces.advance(face.get(), drawn[0]);
      return new Cluster(start, end, way, face.get(), look, width);
    }
    int first = text.codePointAt(start);
    int next = start + Character.charCount(first);
    if (isIgnored(first)) {
      return new Cluster(start, next, Way.NOTHING, look.face(), look, 0);
    }
    return faces
        .having(first, look.face())
        .map(
            f ->
                new Cluster(
                    start, next, Way.LETTERS, f, look, look.size() * faces.advance(f, first)))
        .orElse(new Cluster(start, next, Way.MISSING, look.face(), look, 1.45 * look.size()));
  }

  /** One face that has them all. */
  private Optional<Face> having(int[] codePoints, Face wanted) {
    Optional<Face> face = faces.having(codePoints[0], wanted);
    for (int c : codePoints) {
      if (face.isPresent() && !faces.has(face.get(), c)) {
        return Optional.empty();
      }
    }
    return face;
  }

  /** Characters that only steer others, and those without any meaning on paper. */
  static boolean isIgnored(int codePoint) {
    int type = Character.getType(codePoint);
    return type == Character.CONTROL
        || type == Character.FORMAT
        || type == Character.SURROGATE
        || codePoint >= 0xFE00 && codePoint <= 0xFE0F;
  }

  private static boolean isShaped(int codePoint) {
    return !SIDE_BY_SIDE.contains(UnicodeScript.of(codePoint));
  }

  /** Letters that join are as wide as they are together: the width is shared out among them. */
  private List<Cluster> joined(String text, List<Cluster> all) {
    List<Cluster> out = new ArrayList<>(all.size());
    for (int i = 0; i < all.size(); ) {
      int j = i + 1;
      if (all.get(i).way() == Way.OUTLINE) {
        while (j < all.size() && all.get(j).alike(all.get(i))) {
          j++;
        }
        double width = shaped(text.substring(all.get(i).start(), all.get(j - 1).end()), all.get(i));
        for (Cluster c : all.subList(i, j)) {
          out.add(new Cluster(c.start(), c.end(), c.way(), c.face(), c.look(), width / (j - i)));
        }
      } else {
        out.add(all.get(i));
      }
      i = j;
    }
    return out;
  }

  private double shaped(String text, Cluster like) {
    return layout(text, like.face(), like.look()).getAdvance();
  }

  TextLayout layout(String text, Face face, Look look) {
    return new TextLayout(text, faces.shaping(face).deriveFont((float) look.size()), EXACT);
  }
}
