package bellwire.analysis.loop;

/**
 * A protective switch, closed when all is well.
 *
 * @param means what its opening means, such as 'the drain pan is full'
 */
public record Switch(String name, Point a, Point b, Kind kind, String means) implements Element {
  /** Kinds of protective switch. */
  public enum Kind {
    FLOAT,
    LIMIT,
    PRESSURE,
    DOOR
  }
}
