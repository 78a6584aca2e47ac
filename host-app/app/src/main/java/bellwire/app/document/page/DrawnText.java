package bellwire.app.document.page;

import bellwire.app.document.type.Face;
import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2DFontTextDrawer;
import java.awt.Font;
import java.awt.FontFormatException;
import java.io.IOException;
import java.lang.Character.UnicodeScript;
import java.text.AttributedCharacterIterator;
import java.text.CharacterIterator;
import java.util.Locale;
import org.apache.pdfbox.pdmodel.font.PDFont;

/**
 * Text in drawings stays text, in the embedded fonts, as far as its letters stand side by side;
 * other text is drawn as outlines.
 */
final class DrawnText extends PdfBoxGraphics2DFontTextDrawer {
  private final PdfFonts fonts;

  DrawnText(PdfFonts fonts) {
    this.fonts = fonts;
  }

  @Override
  protected PDFont mapFont(Font font, IFontTextDrawerEnv env)
      throws IOException, FontFormatException {
    return fonts.font(face(font));
  }

  private static Face face(Font font) {
    if (font.getFontName(Locale.ROOT).startsWith("Droid")) {
      return Face.EAST_ASIAN;
    }
    return font.getFontName(Locale.ROOT).contains("Bold") ? Face.BOLD : Face.REGULAR;
  }

  @Override
  public boolean canDrawText(AttributedCharacterIterator text, IFontTextDrawerEnv env)
      throws IOException, FontFormatException {
    Face face = face(env.getFont());
    for (char c = text.first(); c != CharacterIterator.DONE; c = text.next()) {
      boolean plain = c == ' ' || fonts.faces().covers(face, c) && standsAlone(c);
      if (!plain) {
        text.first();
        return false;
      }
    }
    text.first();
    return super.canDrawText(text, env);
  }

  private static boolean standsAlone(char c) {
    return switch (UnicodeScript.of(c)) {
      case LATIN, GREEK, CYRILLIC, HAN, HIRAGANA, KATAKANA, COMMON -> true;
      default -> false;
    };
  }
}
