package bellwire.analysis.vigil;

/** The shortest opening that a latch can see through a cable's capacitance. Theory (94). */
public final class ShortestOpening {

  private ShortestOpening() {}

  /**
   * @param wettingOhms through which an opened conductor rises
   * @param farads of the conductor to all others, the far end open
   * @return ln 2 R C, for a comparator at half of the wetting voltage
   */
  public static double micros(double wettingOhms, double farads) {
    if (!(wettingOhms > 0) || !(farads >= 0)) {
      throw new IllegalArgumentException("wettingOhms=" + wettingOhms + " farads=" + farads);
    }
    return 1e6 * Math.log(2) * wettingOhms * farads;
  }
}
