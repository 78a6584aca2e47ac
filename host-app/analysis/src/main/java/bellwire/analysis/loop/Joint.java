package bellwire.analysis.loop;

/**
 * Copper between two points in a state, with no load between.
 *
 * @param name as a path of a current names it
 */
public record Joint(String name, Point a, Point b, double ohms) {
  /** The end that is not {@code from}. */
  public Point other(Point from) {
    return from.equals(a) ? b : a;
  }
}
