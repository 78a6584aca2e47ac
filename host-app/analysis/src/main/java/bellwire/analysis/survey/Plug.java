package bellwire.analysis.survey;

/**
 * The coded plug as the host knows it.
 *
 * @param armOhms by far position, index 0 for position 1
 * @param tolerance relative half-width of each arm's value, rectangular
 * @param perKelvin greatest relative change per kelvin
 * @param kelvinFromReference half-width of the plug's temperature about 20 °C
 */
public record Plug(
    double[] armOhms, double tolerance, double perKelvin, double kelvinFromReference) {

  public int positions() {
    return armOhms.length;
  }

  /** Relative half-width that temperature adds, a product of two rectangular factors. */
  public double temperatureHalfWidth() {
    return perKelvin * kelvinFromReference;
  }

  /** Standard uncertainty of one arm. */
  public double u(int position) {
    double arm = armOhms[position];
    return arm * Math.hypot(tolerance / Math.sqrt(3), temperatureHalfWidth() / 3);
  }
}
