package bellwire.app.desk;

import bellwire.app.drawing.Palette;
import java.util.Locale;

/** How the window is lit. */
public enum Theme {
  LIGHT("Light", false),
  DARK("Dark", true),
  /** For a dark cellar: low luminance. */
  DIM("Dim", true),
  /** For outdoors: the most contrast there is. */
  SUNLIGHT("Sunlight", false);

  private final String words;
  private final boolean dark;

  Theme(String words, boolean dark) {
    this.words = words;
    this.dark = dark;
  }

  public Palette palette() {
    return switch (this) {
      case LIGHT -> Palette.LIGHT;
      case DARK -> Palette.DARK;
      case DIM -> Palette.DIM;
      case SUNLIGHT -> Palette.SUNLIGHT;
    };
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
    return switch (this) {
      case LIGHT -> DARK;
      case DARK -> DIM;
      case DIM -> SUNLIGHT;
      case SUNLIGHT -> LIGHT;
    };
  }

  @Override
  public String toString() {
    return words;
  }
}
