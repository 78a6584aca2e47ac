package bellwire.hardware.sheet;

/**
 * Room that a text takes. Every text is written with its length fixed, so that it takes the same
 * room in whatever font a viewer has. Advance widths are those of Helvetica's metrics (from
 * memory), condensed.
 */
final class Lettering {
  /** Font size; capitals are 2 mm high. */
  static final double SIZE = 2.2;

  static final double LINE = 2.4;

  /** Height of capitals, in sizes. */
  static final double CAPITAL = 0.72;

  private static final String DEEP = "gjpqy(){}[]|Q";
  private static final double CONDENSED = 0.86;
  private static final String[] WIDTHS = {
    "222 ijl'|",
    "278 I.,:;/ ft!\\[]",
    "333 -()r",
    "389 *",
    "500 Jckvxyzs",
    "556 0123456789abdeghnopqu_L",
    "584 +<>=~≥≤±×",
    "611 FTZ",
    "667 ABEKPSVXY",
    "722 CDHNRUwG&",
    "778 OQ",
    "833 Mm",
    "944 W",
    "768 Ω"
  };

  private Lettering() {}

  static double width(String text, double size) {
    double sum = 0;
    for (int i = 0; i < text.length(); i++) {
      sum += advance(text.charAt(i));
    }
    return sum * size * CONDENSED / 1000;
  }

  static double width(String text) {
    return width(text, SIZE);
  }

  /**
   * The text's box, from its capitals to what goes below the line.
   *
   * @param anchor -1 where x is its left end, 0 its middle, 1 its right end
   * @param y the middle of its capitals
   */
  static Box box(String text, double x, double y, int anchor, double size) {
    double width = width(text, size);
    boolean deep = text.chars().anyMatch(c -> DEEP.indexOf(c) >= 0);
    double depth = CAPITAL / 2 + (deep ? 0.22 : 0.15);
    return new Box(
        x - width * (anchor + 1) / 2, y - size * CAPITAL / 2, width, size * (CAPITAL / 2 + depth));
  }

  private static double advance(char c) {
    for (String group : WIDTHS) {
      if (group.indexOf(c, 4) >= 0) {
        return Integer.parseInt(group.substring(0, 3));
      }
    }
    return 556;
  }
}
