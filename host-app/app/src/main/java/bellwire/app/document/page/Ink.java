package bellwire.app.document.page;

import bellwire.app.document.block.Span.Tone;
import java.awt.Color;

/**
 * Colours on paper: 4.5:1 against white at least (WCAG 2.2, 1.4.3), hues by Okabe and Ito (2008),
 * darkened.
 */
public final class Ink {
  public static final Color TEXT = new Color(0x14171a);
  public static final Color LINE = new Color(0xb8bec4);
  public static final Color STRONG_LINE = new Color(0x14171a);
  static final Color CAUTION_GROUND = new Color(0xfff4dc);
  static final Color CAUTION_BAR = new Color(0xb35900);
  static final Color HEAD_GROUND = new Color(0xeef1f4);

  private Ink() {}

  /** The colour of a text. */
  public static Color of(Tone tone) {
    return switch (tone) {
      case INK -> TEXT;
      case FAINT -> new Color(0x53606b);
      case SOUND -> new Color(0x00694f);
      case FAULTY -> new Color(0xa83c00);
      case UNDECIDED -> new Color(0x6a4a00);
    };
  }
}
