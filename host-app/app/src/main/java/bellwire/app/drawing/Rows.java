package bellwire.app.drawing;

/** How high the rows of a survey's drawings are, in the drawing's units. */
public final class Rows {
  /** Where there is room. */
  public static final double ROOMY = 24;

  /** The least at which rows of the smallest type stay apart. */
  public static final double DENSE = 16;

  private Rows() {}

  /**
   * The most that lets all rows be seen at once, within these bounds.
   *
   * @param height of the view
   * @param rest what the drawing has above and below its rows
   */
  public static double fitting(double height, double rest, int rows) {
    return Math.max(DENSE, Math.min(ROOMY, (height - rest) / Math.max(1, rows)));
  }
}
