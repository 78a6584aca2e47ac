package bellwire.app.document.type;

import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/** The fonts, read when they are first asked for. Used by one thread; for one document. */
public final class Faces implements AutoCloseable {
  private final Map<Face, TrueTypeFont> read = new EnumMap<>(Face.class);
  private final Map<Face, CmapLookup> glyphs = new EnumMap<>(Face.class);
  private final Map<Face, Font> shaping = new EnumMap<>(Face.class);

  /** As it is to be embedded. */
  public TrueTypeFont font(Face face) {
    return read.computeIfAbsent(face, Faces::read);
  }

  private static TrueTypeFont read(Face face) {
    try (InputStream in = open(face)) {
      TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(in));
      // No ligatures: widths are those of the letters, and text is found again letter by letter.
      font.setEnableGsub(false);
      return font;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static InputStream open(Face face) throws IOException {
    InputStream in = Faces.class.getResourceAsStream(face.resource());
    if (in == null) {
      throw new IOException("not in the program: " + face.resource());
    }
    return in;
  }

  /** The face that has a character: the wanted one, else one that stands in; empty where none. */
  Optional<Face> having(int codePoint, Face wanted) {
    if (has(wanted, codePoint)) {
      return Optional.of(wanted);
    }
    for (Face face : Face.values()) {
      if (face != wanted && has(face, codePoint)) {
        return Optional.of(face);
      }
    }
    return Optional.empty();
  }

  /** Whether a character can be drawn, or needs not be. */
  public boolean draws(int codePoint) {
    return Clusters.isIgnored(codePoint) || having(codePoint, Face.values()[0]).isPresent();
  }

  /** Whether a face has a character. */
  public boolean covers(Face face, int codePoint) {
    return has(face, codePoint);
  }

  boolean has(Face face, int codePoint) {
    return lookup(face).getGlyphId(codePoint) != 0;
  }

  private CmapLookup lookup(Face face) {
    return glyphs.computeIfAbsent(
        face,
        f -> {
          try {
            return font(f).getUnicodeCmapLookup();
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  /** Width of a character that the face has, at size 1. */
  double advance(Face face, int codePoint) {
    try {
      TrueTypeFont font = font(face);
      int glyph = lookup(face).getGlyphId(codePoint);
      return (double) font.getAdvanceWidth(glyph) / font.getUnitsPerEm();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The same font for text whose letters join. */
  Font shaping(Face face) {
    return shaping.computeIfAbsent(
        face,
        f -> {
          try (InputStream in = open(f)) {
            return Font.createFont(Font.TRUETYPE_FONT, in);
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          } catch (FontFormatException e) {
            throw new IllegalStateException("face=" + f, e);
          }
        });
  }

  @Override
  public void close() throws IOException {
    for (TrueTypeFont font : read.values()) {
      font.close();
    }
  }
}
