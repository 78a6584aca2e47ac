package bellwire.app.drawing;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.Graphics2D;
import java.awt.font.FontRenderContext;
import java.awt.font.TextAttribute;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.text.AttributedString;
import java.text.Bidi;
import java.text.BreakIterator;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * The bundled type, so that screen and paper show the same. What a person wrote may be in any
 * script: glyphs that DejaVu Sans lacks come from the fallback font, and text with a right-to-left
 * part is laid out whole and filled as outlines, which any graphics can take.
 */
public final class Lettering {
  private static final Font REGULAR = load("DejaVuSans.ttf");
  private static final Font BOLD = load("DejaVuSans-Bold.ttf");
  private static final Font FALLBACK = load("DroidSansFallbackFull.ttf");
  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);
  private static final int MOST_WIDTHS = 8192;

  /** A drawing asks for the same texts again and again, and measuring is slow. */
  private static final Map<Measured, Double> WIDTHS = new ConcurrentHashMap<>();

  /** Marks that have no width (Unicode UAX 9, 2.6). */
  private static final char LEFT_TO_RIGHT = '\u200e';

  private static final char RIGHT_TO_LEFT = '\u200f';

  private static final String DOTS = "\u2026";

  private Lettering() {}

  private static Font load(String name) {
    try (InputStream in = Lettering.class.getResourceAsStream("/bellwire/app/fonts/" + name)) {
      if (in == null) {
        throw new IllegalStateException("missing resource " + name);
      }
      return Font.createFont(Font.TRUETYPE_FONT, in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (FontFormatException e) {
      throw new IllegalStateException("font " + name, e);
    }
  }

  /** Body type. */
  public static Font regular(double size) {
    return REGULAR.deriveFont((float) size);
  }

  /** For names and verdicts. */
  public static Font bold(double size) {
    return BOLD.deriveFont((float) size);
  }

  /** For what the others have no glyphs for. */
  public static Font fallback(double size) {
    return FALLBACK.deriveFont((float) size);
  }

  /** A stretch of text in one font. */
  private record Run(String text, Font font) {}

  private static List<Run> runs(String text, Font font) {
    List<Run> runs = new ArrayList<>();
    int begin = 0;
    Font current = font;
    for (int i = 0; i < text.length(); ) {
      int c = text.codePointAt(i);
      Font wanted = fontOf(c, font, current);
      if (wanted != current) {
        if (i > begin) {
          runs.add(new Run(text.substring(begin, i), current));
        }
        begin = i;
        current = wanted;
      }
      i += Character.charCount(c);
    }
    if (begin < text.length()) {
      runs.add(new Run(text.substring(begin), current));
    }
    return runs;
  }

  private static Font fontOf(int c, Font font, Font current) {
    int type = Character.getType(c);
    if (type == Character.NON_SPACING_MARK || type == Character.FORMAT) {
      return current;
    }
    if (font.canDisplay(c)) {
      return font;
    }
    Font fallback = fallback(font.getSize2D());
    return fallback.canDisplay(c) ? fallback : font;
  }

  private static boolean twoWay(String text) {
    return Bidi.requiresBidi(text.toCharArray(), 0, text.length());
  }

  private static TextLayout layout(String text, Font font) {
    AttributedString styled = new AttributedString(text);
    int at = 0;
    for (Run run : runs(text, font)) {
      styled.addAttribute(TextAttribute.FONT, run.font(), at, at + run.text().length());
      at += run.text().length();
    }
    return new TextLayout(styled.getIterator(), CONTEXT);
  }

  /** Control characters are no text: they would break a line or a drawing. */
  static String clean(String text) {
    return text.replaceAll("\\p{Cntrl}+", " ").strip();
  }

  private record Measured(String text, Font font) {}

  /** Advance of a line of text. */
  public static double width(String text, Font font) {
    if (text.isEmpty()) {
      return 0;
    }
    if (WIDTHS.size() > MOST_WIDTHS) {
      WIDTHS.clear();
    }
    return WIDTHS.computeIfAbsent(new Measured(text, font), m -> measure(m.text(), m.font()));
  }

  private static double measure(String text, Font font) {
    if (twoWay(text)) {
      return layout(text, font).getAdvance();
    }
    double width = 0;
    for (Run run : runs(text, font)) {
      width += run.font().getStringBounds(run.text(), CONTEXT).getWidth();
    }
    return width;
  }

  /** Draws a line of text in the graphics' colour, from its left end on the baseline. */
  public static void draw(Graphics2D g, String text, Font font, double x, double y) {
    if (text.isEmpty()) {
      return;
    }
    if (twoWay(text)) {
      g.fill(layout(text, font).getOutline(AffineTransform.getTranslateInstance(x, y)));
      return;
    }
    double at = x;
    for (Run run : runs(text, font)) {
      g.setFont(run.font());
      g.drawString(run.text(), (float) at, (float) y);
      at += run.font().getStringBounds(run.text(), CONTEXT).getWidth();
    }
  }

  /** The text, or as much of it as fits with dots behind; empty where not even those do. */
  public static String shorten(String text, Font font, double width) {
    if (width(text, font) <= width) {
      return text;
    }
    BreakIterator ends = BreakIterator.getCharacterInstance(Locale.ROOT);
    ends.setText(text);
    String best = width(DOTS, font) <= width ? DOTS : "";
    for (int end = ends.next(); end != BreakIterator.DONE; end = ends.next()) {
      String cut = text.substring(0, end).stripTrailing() + DOTS;
      if (width(cut, font) > width) {
        break;
      }
      best = cut;
    }
    return best;
  }

  /** The text in lines of at most this width; a word that is longer is broken. */
  public static List<String> wrap(String text, Font font, double width) {
    List<String> lines = new ArrayList<>();
    BreakIterator places = BreakIterator.getLineInstance(Locale.ROOT);
    places.setText(text);
    String line = "";
    int begin = places.first();
    for (int end = places.next(); end != BreakIterator.DONE; end = places.next()) {
      String word = text.substring(begin, end);
      if (width((line + word).stripTrailing(), font) > width) {
        if (!line.isBlank()) {
          lines.add(line.stripTrailing());
        }
        line = "";
        word = pieces(word, font, width, lines);
      }
      line += word;
      begin = end;
    }
    if (!line.isBlank()) {
      lines.add(line.stripTrailing());
    }
    return twoWay(text) ? directed(lines, text) : lines;
  }

  /** Each line runs as the whole does: one that begins with a word of the other direction too. */
  private static List<String> directed(List<String> lines, String whole) {
    boolean toRight = toRight(whole);
    return lines.stream()
        .map(l -> toRight(l) == toRight ? l : (toRight ? LEFT_TO_RIGHT : RIGHT_TO_LEFT) + l)
        .toList();
  }

  private static boolean toRight(String text) {
    return new Bidi(text, Bidi.DIRECTION_DEFAULT_LEFT_TO_RIGHT).baseIsLeftToRight();
  }

  /** Adds whole lines of a word that is too long for one, and returns the rest. */
  private static String pieces(String word, Font font, double width, List<String> lines) {
    String rest = word;
    while (width(rest.stripTrailing(), font) > width && rest.codePointCount(0, rest.length()) > 1) {
      int end = Character.charCount(rest.codePointAt(0));
      while (end < rest.length()) {
        int next = end + Character.charCount(rest.codePointAt(end));
        if (width(rest.substring(0, next), font) > width) {
          break;
        }
        end = next;
      }
      if (end == rest.length()) {
        break;
      }
      lines.add(rest.substring(0, end));
      rest = rest.substring(end);
    }
    return rest;
  }
}
