package bellwire.analysis.fault;

/**
 * One state of the far end during which readings were taken.
 *
 * @param kind what is on the far end
 * @param arms by port, resistance from its terminal to the plug's common point as far as it is
 *     known by itself; NaN for a port that does not hang on the plug. Empty for {@link Kind#OPEN}
 */
public record Stage(Kind kind, double[] arms) {

  /** What is on the far end. */
  public enum Kind {
    OPEN,
    CODED,
    TIE
  }
}
