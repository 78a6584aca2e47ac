package bellwire.hardware.budget;

/**
 * Distributions of an input quantity, each by the share of its size that is its standard
 * uncertainty.
 */
public enum Shape {
  /** The size is a standard deviation. */
  NORMAL("normal", 1),
  /** The size is a half-width, JCGM 100:2008, 4.3.7. */
  RECTANGULAR("rectangular", 1 / Math.sqrt(3)),
  /**
   * Two independent rectangular factors about zero; the size is the product of their half-widths.
   */
  PRODUCT("product", 1.0 / 3),
  /**
   * Two independent factors, each uniform from zero to its largest; the size is the product of
   * those.
   */
  SHARE("share", Math.sqrt(7) / 12);

  private final String word;
  private final double factor;

  Shape(String word, double factor) {
    this.word = word;
    this.factor = factor;
  }

  double u(double size) {
    return size * factor;
  }

  @Override
  public String toString() {
    return word;
  }
}
