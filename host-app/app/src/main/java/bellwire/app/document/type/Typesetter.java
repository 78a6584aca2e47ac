package bellwire.app.document.type;

import bellwire.app.document.block.Span;
import bellwire.app.document.type.Piece.Look;
import java.text.Bidi;
import java.text.BreakIterator;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Sets text in lines of a width. A word longer than a line is broken where it must be. */
public final class Typesetter {
  private static final double ROUNDING = 1e-6;

  /** A figure and its unit stay on one line. */
  private static final String UNIT =
      "(?<![\\p{L}\\d])(\\d[\\d.,]*) ((?:[kMGm]?ohm|m?V|m?A|m|ft|[mun]?s|min|h|%|Hz|AWG|F|H)"
          + "(?![\\p{L}\\d]))";

  private final Clusters clusters;
  private final LineSetter setter;

  public Typesetter(Faces faces) {
    clusters = new Clusters(faces);
    setter = new LineSetter(clusters);
  }

  /**
   * @param size of type
   * @param width of a line
   * @return one line at least, where there is no text an empty one
   */
  public List<TextLine> lines(List<Span> spans, double size, double width) {
    List<TextLine> lines = new ArrayList<>();
    for (List<Span> paragraph : paragraphs(spans)) {
      lines.addAll(new Broken(paragraph, size).lines(width));
    }
    return lines;
  }

  /** As one line, however long. */
  public TextLine line(List<Span> spans, double size) {
    return lines(spans, size, Double.POSITIVE_INFINITY).get(0);
  }

  /** As one line that is cut short, with an ellipsis, where it is longer than the width. */
  public TextLine cut(Span span, double size, double width) {
    TextLine whole = line(List.of(span), size);
    String text = span.text();
    while (whole.width() > width && !text.isEmpty()) {
      text = text.substring(0, text.offsetByCodePoints(text.length(), -1));
      whole =
          line(
              List.of(new Span(text.strip() + "\u2026", span.bold(), span.struck(), span.tone())),
              size);
    }
    return whole;
  }

  /** The widest part that is broken only where it must be, and the width without any break. */
  public Extent extent(List<Span> spans, double size) {
    double longest = 0;
    double whole = 0;
    for (List<Span> paragraph : paragraphs(spans)) {
      Extent one = new Broken(paragraph, size).extent();
      longest = Math.max(longest, one.longestPart());
      whole = Math.max(whole, one.whole());
    }
    return new Extent(longest, whole);
  }

  /** What a text takes. */
  public record Extent(double longestPart, double whole) {}

  private static List<List<Span>> paragraphs(List<Span> spans) {
    List<List<Span>> all = new ArrayList<>();
    List<Span> now = new ArrayList<>();
    for (Span span : spans) {
      String[] parts = clean(span.text()).split("\n", -1);
      for (int i = 0; i < parts.length; i++) {
        if (i > 0) {
          all.add(now);
          now = new ArrayList<>();
        }
        now.add(new Span(parts[i], span.bold(), span.struck(), span.tone()));
      }
    }
    all.add(now);
    return all;
  }

  private static String clean(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFC)
        .replace("\r\n", "\n")
        .replaceAll("[\r\u000b\f\u0085\u2028\u2029]", "\n")
        .replace('\t', ' ')
        .replace(" \u00b1 ", "\u00a0\u00b1\u00a0")
        .replaceAll(UNIT, "$1\u00a0$2");
  }

  /** A paragraph, taken apart. */
  private final class Broken {
    private final String text;
    private final double size;
    private final List<Cluster> all;

    Broken(List<Span> spans, double size) {
      this.size = size;
      StringBuilder joined = new StringBuilder();
      List<Integer> ends = new ArrayList<>();
      for (Span span : spans) {
        joined.append(span.text());
        ends.add(joined.length());
      }
      text = joined.toString();
      all =
          clusters.of(
              text,
              at -> {
                int i = 0;
                while (ends.get(i) <= at) {
                  i++;
                }
                Span span = spans.get(i);
                return new Look(size, span.bold(), span.struck(), span.tone());
              });
    }

    /** Behind which clusters a line may end. */
    private boolean[] breaks() {
      boolean[] at = new boolean[text.length() + 1];
      BreakIterator lines = BreakIterator.getLineInstance(Locale.ROOT);
      lines.setText(text);
      for (int i = lines.first(); i != BreakIterator.DONE; i = lines.next()) {
        at[i] = !isTime(i);
      }
      return at;
    }

    /** Within '14:02:10'. */
    private boolean isTime(int i) {
      return i >= 2
          && i < text.length()
          && text.charAt(i - 1) == ':'
          && Character.isDigit(text.charAt(i - 2))
          && Character.isDigit(text.charAt(i));
    }

    private boolean isSpace(int cluster) {
      return Character.isWhitespace(text.codePointAt(all.get(cluster).start()));
    }

    Extent extent() {
      boolean[] breaks = breaks();
      double longest = 0;
      double part = 0;
      double trailing = 0;
      double whole = 0;
      for (int i = 0; i < all.size(); i++) {
        double w = all.get(i).width();
        whole += w;
        part += w;
        trailing = isSpace(i) ? trailing + w : 0;
        longest = Math.max(longest, part - trailing);
        if (breaks[all.get(i).end()]) {
          part = 0;
          trailing = 0;
        }
      }
      return new Extent(longest, whole);
    }

    List<TextLine> lines(double width) {
      Bidi bidi = new Bidi(text, Bidi.DIRECTION_DEFAULT_LEFT_TO_RIGHT);
      boolean[] breaks = breaks();
      List<TextLine> out = new ArrayList<>();
      int from = 0;
      do {
        int to = end(from, width, breaks);
        int last = to;
        while (last > from && isSpace(last - 1)) {
          last--;
        }
        out.add(setter.line(text, bidi, all, from, last, size));
        from = to;
      } while (from < all.size());
      return out;
    }

    /** Behind the last cluster of the line that begins there; one cluster at least. */
    private int end(int from, double width, boolean[] breaks) {
      double used = 0;
      int breakable = from;
      for (int i = from; i < all.size(); i++) {
        used += all.get(i).width();
        if (!isSpace(i) && used > width + ROUNDING) {
          return breakable > from ? breakable : Math.max(i, from + 1);
        }
        if (breaks[all.get(i).end()]) {
          breakable = i + 1;
        }
      }
      return all.size();
    }
  }
}
