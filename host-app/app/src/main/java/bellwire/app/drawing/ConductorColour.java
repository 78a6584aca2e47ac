package bellwire.app.drawing;

import java.awt.Color;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A conductor's insulation as it is drawn. The names are the trade's, plain English, with the
 * letter codes of IEC 60757 (from memory) beside them.
 *
 * @param fill the insulation
 * @param stripe of a two-coloured one; null where there is none
 * @param known false where the name says no colour that is known here: the fill is then a grey that
 *     stands for none, and the word has to tell
 */
public record ConductorColour(Color fill, @Nullable Color stripe, boolean known) {
  private static final Color NONE = new Color(160, 160, 160);

  private static final Map<String, Color> COLOURS =
      Map.ofEntries(
          Map.entry("black", new Color(24, 24, 24)),
          Map.entry("white", new Color(250, 250, 250)),
          Map.entry("red", new Color(204, 32, 32)),
          Map.entry("green", new Color(24, 130, 60)),
          Map.entry("blue", new Color(28, 78, 180)),
          Map.entry("yellow", new Color(244, 214, 32)),
          Map.entry("orange", new Color(240, 128, 16)),
          Map.entry("brown", new Color(112, 66, 28)),
          Map.entry("violet", new Color(120, 60, 160)),
          Map.entry("grey", new Color(128, 128, 128)),
          Map.entry("pink", new Color(244, 150, 176)),
          Map.entry("turquoise", new Color(48, 190, 190)),
          Map.entry("gold", new Color(190, 150, 50)),
          Map.entry("silver", new Color(192, 196, 200)),
          Map.entry("tan", new Color(206, 170, 120)),
          Map.entry("copper", new Color(184, 110, 60)));

  private static final Map<String, String> ALIKE =
      Map.ofEntries(
          Map.entry("gray", "grey"),
          Map.entry("purple", "violet"),
          Map.entry("lilac", "violet"),
          Map.entry("slate", "grey"),
          Map.entry("beige", "tan"),
          Map.entry("cyan", "turquoise"),
          Map.entry("aqua", "turquoise"),
          Map.entry("rose", "pink"),
          Map.entry("bare", "copper"),
          Map.entry("bk", "black"),
          Map.entry("wh", "white"),
          Map.entry("rd", "red"),
          Map.entry("gn", "green"),
          Map.entry("bu", "blue"),
          Map.entry("ye", "yellow"),
          Map.entry("og", "orange"),
          Map.entry("bn", "brown"),
          Map.entry("vt", "violet"),
          Map.entry("gy", "grey"),
          Map.entry("pk", "pink"),
          Map.entry("tq", "turquoise"),
          Map.entry("gd", "gold"),
          Map.entry("sr", "silver"));

  /**
   * What a person wrote: 'red', 'light blue', 'white/blue', 'white-blue', 'white with blue stripe'.
   * The first colour named is the fill, the second the stripe.
   */
  public static ConductorColour of(@Nullable String name) {
    Color fill = null;
    Color stripe = null;
    double lighter = 0;
    String words = name == null ? "" : name.toLowerCase(Locale.ROOT);
    for (String word : words.split("[^\\p{L}]+")) {
      Color colour = COLOURS.get(ALIKE.getOrDefault(word, word));
      if (colour == null) {
        lighter = word.equals("light") ? 0.45 : word.equals("dark") ? -0.4 : lighter;
        continue;
      }
      Color shade = shade(colour, lighter);
      lighter = 0;
      if (fill == null) {
        fill = shade;
      } else if (stripe == null) {
        stripe = shade;
      }
    }
    return fill == null
        ? new ConductorColour(NONE, null, false)
        : new ConductorColour(fill, stripe, true);
  }

  private static Color shade(Color colour, double lighter) {
    return lighter == 0
        ? colour
        : Palette.mix(colour, lighter > 0 ? Color.WHITE : Color.BLACK, Math.abs(lighter));
  }

  /** The line around it: shows on the paper at 3:1 or better (WCAG 2.2, 1.4.11). */
  public Color edge(Palette palette) {
    return palette.isDark() ? palette.faint() : palette.ink();
  }
}
