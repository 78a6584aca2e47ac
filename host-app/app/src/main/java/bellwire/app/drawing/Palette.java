package bellwire.app.drawing;

import java.awt.Color;

/**
 * The colours of a drawing. Where a colour carries meaning it is one of Okabe and Ito's set (Okabe,
 * Ito: Color Universal Design, 2008), darkened or lightened until it reads as text; shape and word
 * always say the same. Every colour from {@code ink} to {@code accent} reads on {@code paper},
 * {@code panel} and {@code selected} at 4.5:1 or better (WCAG 2 relative luminance).
 *
 * @param paper what is drawn on
 * @param panel a part set off from the paper
 * @param selected behind what is selected
 * @param ink text
 * @param faint text of less weight
 * @param sound text and shapes
 * @param faulty text and shapes
 * @param undecided text and shapes
 * @param accent text and shapes of what is neither, such as a person's mark
 * @param line axes and rules; no text
 * @param lit a path that carries current; no text
 * @param low resistance, at the scale's low end; no text
 * @param high resistance, at the scale's high end; no text
 */
public record Palette(
    Color paper,
    Color panel,
    Color selected,
    Color ink,
    Color faint,
    Color sound,
    Color faulty,
    Color undecided,
    Color accent,
    Color line,
    Color lit,
    Color low,
    Color high) {
  // Okabe and Ito (2008).
  static final Color ORANGE = new Color(230, 159, 0);
  static final Color SKY_BLUE = new Color(86, 180, 233);
  static final Color BLUISH_GREEN = new Color(0, 158, 115);
  static final Color YELLOW = new Color(240, 228, 66);
  static final Color BLUE = new Color(0, 114, 178);
  static final Color VERMILLION = new Color(213, 94, 0);
  static final Color REDDISH_PURPLE = new Color(204, 121, 167);

  /** On white paper. */
  public static final Palette PRINT =
      light(grey(255), grey(246), new Color(226, 238, 248), grey(0), grey(80), 0.34);

  /** On a screen, indoors. */
  public static final Palette LIGHT =
      light(grey(252), grey(243), new Color(220, 234, 246), grey(20), grey(82), 0.36);

  /** On a screen, in a dark room. */
  public static final Palette DARK =
      dark(grey(30), grey(42), new Color(34, 54, 72), grey(236), grey(178), 0.30);

  /** As little light as reads: for eyes that are used to the dark. */
  public static final Palette DIM =
      dark(grey(8), grey(16), new Color(12, 24, 34), grey(160), grey(132), 0);

  /** In the sun: black on white, no greys. */
  public static final Palette SUNLIGHT =
      light(grey(255), grey(255), new Color(255, 246, 170), grey(0), grey(0), 0.45);

  private static Palette light(
      Color paper, Color panel, Color selected, Color ink, Color faint, double darker) {
    return new Palette(
        paper,
        panel,
        selected,
        ink,
        faint,
        mix(BLUISH_GREEN, Color.BLACK, darker),
        mix(VERMILLION, Color.BLACK, darker),
        mix(REDDISH_PURPLE, Color.BLACK, Math.min(0.48, darker + 0.12)),
        mix(BLUE, Color.BLACK, darker - 0.1),
        darker > 0.4 ? ink : grey(120),
        ORANGE,
        mix(BLUE, Color.BLACK, 0.5),
        mix(SKY_BLUE, Color.WHITE, 0.8));
  }

  private static Palette dark(
      Color paper, Color panel, Color selected, Color ink, Color faint, double lighter) {
    return new Palette(
        paper,
        panel,
        selected,
        ink,
        faint,
        mix(BLUISH_GREEN, Color.WHITE, lighter),
        mix(VERMILLION, Color.WHITE, lighter),
        mix(REDDISH_PURPLE, Color.WHITE, lighter),
        mix(SKY_BLUE, Color.WHITE, lighter / 2),
        grey(lighter > 0 ? 130 : 100),
        lighter > 0 ? ORANGE : mix(ORANGE, Color.BLACK, 0.25),
        mix(SKY_BLUE, Color.WHITE, lighter),
        mix(BLUE, paper, 0.75));
  }

  /** Whether light is drawn on dark. */
  public boolean isDark() {
    return luminance(paper) < 0.18;
  }

  /** Black or white, whichever reads better on a ground: at least 4.58:1, whatever the ground. */
  public static Color readable(Color ground) {
    return contrast(Color.BLACK, ground) >= contrast(Color.WHITE, ground)
        ? Color.BLACK
        : Color.WHITE;
  }

  /** Relative luminance, 0 to 1 (WCAG 2.2, definition 'relative luminance'). */
  public static double luminance(Color colour) {
    return 0.2126 * linear(colour.getRed())
        + 0.7152 * linear(colour.getGreen())
        + 0.0722 * linear(colour.getBlue());
  }

  /** Contrast ratio, 1 to 21 (WCAG 2.2, definition 'contrast ratio'). */
  public static double contrast(Color a, Color b) {
    double la = luminance(a);
    double lb = luminance(b);
    return (Math.max(la, lb) + 0.05) / (Math.min(la, lb) + 0.05);
  }

  private static double linear(int component) {
    double c = component / 255.0;
    return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
  }

  /**
   * @param share of {@code other}, 0 to 1
   */
  static Color mix(Color colour, Color other, double share) {
    return new Color(
        between(colour.getRed(), other.getRed(), share),
        between(colour.getGreen(), other.getGreen(), share),
        between(colour.getBlue(), other.getBlue(), share));
  }

  private static int between(int a, int b, double share) {
    return (int) Math.round(a + (b - a) * share);
  }

  private static Color grey(int level) {
    return new Color(level, level, level);
  }
}
