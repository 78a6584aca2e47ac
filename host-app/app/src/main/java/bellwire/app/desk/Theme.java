package bellwire.app.desk;

import bellwire.app.drawing.Palette;
import java.util.Locale;

/** How the window is lit. */
public enum Theme {
  LIGHT("Light", Palette.LIGHT, false),
  DARK("Dark", Palette.DARK, true),
  /** For a dark cellar: low luminance. */
  DIM("Dim", Palette.DIM, true),
  /** For outdoors: the most contrast there is. */
  SUNLIGHT("Sunlight", Palette.SUNLIGHT, false);

  private final String words;
  private final Palette palette;
  private final boolean dark;

  Theme(String words, Palette palette, boolean dark) {
    this.words = words;
    this.palette = palette;
    this.dark = dark;
  }

  public Palette palette() {
    return palette;
  }

  boolean dark() {
    return dark;
  }

  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Light where there is none of that name. */
  public static Theme of(String key) {
    for (Theme theme : values()) {
      if (theme.key().equals(key)) {
        return theme;
      }
    }
    return LIGHT;
  }

  Theme next() {
    return values()[(ordinal() + 1) % values().length];
  }

  @Override
  public String toString() {
    return words;
  }
}
