package bellwire.app.document.page;

/**
 * Sizes of paper in points of 1/72 inch: ISO 216 A4 (210 mm × 297 mm) and US Letter (8.5 in × 11
 * in).
 */
public enum Paper {
  A4(595.276f, 841.890f),
  LETTER(612, 792);

  private final float width;
  private final float height;

  Paper(float width, float height) {
    this.width = width;
    this.height = height;
  }

  public float width() {
    return width;
  }

  public float height() {
    return height;
  }
}
