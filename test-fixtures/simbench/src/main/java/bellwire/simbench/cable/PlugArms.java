package bellwire.simbench.cable;

import bellwire.board.CodedPlug;
import bellwire.simbench.file.Bench;

/**
 * The coded plug at hand: its arms as they are, and as they were once measured and stored under its
 * number.
 *
 * @param number the plug's
 * @param actualOhms by far position − 1, at the plug's temperature
 * @param storedOhms by far position − 1, at 20 °C, with the calibration's own error
 */
public record PlugArms(int number, double[] actualOhms, double[] storedOhms) {

  static PlugArms of(Bench.Plug plug, Draws draws) {
    CodedPlug nominal = CodedPlug.nominal();
    double[] actual = new double[CodedPlug.POSITIONS];
    double[] stored = new double[CodedPlug.POSITIONS];
    for (int i = 0; i < actual.length; i++) {
      double at20 =
          nominal.armOhms(i + 1) * (1 + draws.symmetric(plug.tolerance(), "arm", plug.number(), i));
      double perKelvin = draws.symmetric(nominal.ppmPerKelvin() * 1e-6, "arm-tc", plug.number(), i);
      actual[i] = at20 * (1 + perKelvin * (plug.celsius() - 20));
      stored[i] =
          at20 * (1 + draws.symmetric(nominal.calibrationError(), "arm-cal", plug.number(), i));
    }
    return new PlugArms(plug.number(), actual, stored);
  }
}
