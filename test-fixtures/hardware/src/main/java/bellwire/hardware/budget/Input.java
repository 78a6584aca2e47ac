package bellwire.hardware.budget;

/**
 * An input quantity, as a deviation from what the measurement model takes for it.
 *
 * @param name what it is
 * @param shape its distribution
 * @param size standard deviation or half-width, by the shape
 * @param unit of the size; empty for a ratio
 * @param degreesOfFreedom infinite where the size is known and not observed
 */
public record Input(String name, Shape shape, double size, String unit, double degreesOfFreedom) {
  public Input(String name, Shape shape, double size, String unit) {
    this(name, shape, size, unit, Double.POSITIVE_INFINITY);
  }

  public double u() {
    return shape.u(size);
  }
}
