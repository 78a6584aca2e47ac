package bellwire.link;

/**
 * What the return bus ends in: nothing, the low reference resistor, or the transimpedance stage.
 */
public enum Range {
  NONE,
  LOW,
  MID,
  HIGH
}
