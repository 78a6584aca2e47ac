package bellwire.simbench.chip;

import bellwire.board.BoardDescription;
import java.util.random.RandomGenerator;

/**
 * One converter's own errors.
 *
 * @param referenceVolts its reference
 * @param gainError relative, by gain code 0 to 7
 * @param offsetVolts input-referred, by gain code 0 to 7
 * @param noise factor on its noise; 1 is the part's own, 0 none
 */
public record ConverterErrors(
    double referenceVolts, double[] gainError, double[] offsetVolts, double noise) {
  private static final int GAINS = 8;
  private static final double OUTPUT_VOLTS =
      BoardDescription.revisionA().nominal("converter-output-noise-volts");
  private static final double INPUT_VOLTS =
      BoardDescription.revisionA().nominal("converter-input-noise-volts");

  public ConverterErrors {
    if (gainError.length != GAINS || offsetVolts.length != GAINS) {
      throw new IllegalArgumentException(
          "gainError=" + gainError.length + " offsetVolts=" + offsetVolts.length);
    }
  }

  /** A perfect converter. */
  public static ConverterErrors none() {
    return new ConverterErrors(2.5, new double[GAINS], new double[GAINS], 0);
  }

  /** A part drawn from the board's tolerances. */
  public static ConverterErrors draw(BoardDescription board, double noise, RandomGenerator random) {
    double[] gain = new double[GAINS];
    double[] offset = new double[GAINS];
    double reference = drawn(board.value("converter-reference-volts"), random);
    for (int code = 0; code < GAINS; code++) {
      gain[code] = drawn(board.value("converter-gain-error"), random);
      offset[code] = drawn(board.value("converter-offset-volts"), random);
    }
    return new ConverterErrors(reference, gain, offset, noise);
  }

  private static double drawn(BoardDescription.Value value, RandomGenerator random) {
    return value.nominal() + value.tolerance() * (2 * random.nextDouble() - 1);
  }

  /**
   * Input-referred noise, volts rms: a floor of the input amplifier and a part of the modulator
   * behind it, white, so that it grows with the root of the rate. Sizes of the part's noise table
   * at 20 per second: from memory.
   */
  double noiseVolts(int gain, double perSecond) {
    return noise * Math.hypot(OUTPUT_VOLTS / gain, INPUT_VOLTS) * Math.sqrt(perSecond / 20);
  }
}
