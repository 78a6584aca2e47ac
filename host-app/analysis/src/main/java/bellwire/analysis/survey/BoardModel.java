package bellwire.analysis.survey;

/**
 * The sensing board's values as the analysis needs them: nominal values in SI units, and
 * half-widths of rectangular tolerances. They come from the board's description, never from a
 * simulation.
 *
 * @param excitationVolts open-circuit excitation
 * @param limiterOhms source resistance of the excitation
 * @param lowReferenceOhms reference resistor of the low range
 * @param lowReferenceTolerance its relative half-width
 * @param midReferenceOhms feedback of the transimpedance stage, mid range
 * @param midReferenceTolerance its relative half-width
 * @param highReferenceOhms feedback, high range
 * @param highReferenceTolerance its relative half-width
 * @param temperature of the references, as the board's varies
 * @param stage the transimpedance stage beside its feedback resistors
 * @param pathOhms one relay and one closed switch
 * @param dividerOhms from each port to common
 * @param monitorRatio terminal voltage over the monitor's
 * @param checkHighOhms high check resistor
 * @param checkLowOhms low check resistor
 * @param gainTolerance converter gain error of each gain setting, relative half-width
 * @param leakageAmps leakage of an open switch, half-width
 * @param leakagePerVolt its relative change per volt, half-width
 * @param tapLeakageAmps leakage of a tap multiplexer, half-width
 * @param tapOhms resistance of a sense tap
 * @param converterVolts converter reference
 * @param strayFarads of each port to common, without a conductor
 * @param strayTolerance its half-width
 * @param noise the converter's noise
 */
public record BoardModel(
    double excitationVolts,
    double limiterOhms,
    double lowReferenceOhms,
    double lowReferenceTolerance,
    double midReferenceOhms,
    double midReferenceTolerance,
    double highReferenceOhms,
    double highReferenceTolerance,
    Temperature temperature,
    Stage stage,
    double pathOhms,
    double dividerOhms,
    double monitorRatio,
    double checkHighOhms,
    double checkLowOhms,
    double gainTolerance,
    double leakageAmps,
    double leakagePerVolt,
    double tapLeakageAmps,
    double tapOhms,
    double converterVolts,
    double strayFarads,
    double strayTolerance,
    Noise noise) {

  /**
   * Input-referred noise of one reading: √(outputVolts²/gain² + inputVolts²), at the PRECISE pace;
   * grows with the square root of the rate. Theory (23).
   */
  public record Noise(double outputVolts, double inputVolts) {
    Noise times(double factor) {
      return new Noise(outputVolts * factor, inputVolts * factor);
    }

    public double rms(int gain, Probe.Pace pace) {
      double widening =
          switch (pace) {
            case PRECISE -> 1;
            case QUICK -> Math.sqrt(3);
            case WAVE -> Math.sqrt(20);
            case INSTANT -> Math.sqrt(200);
          };
      return widening * Math.hypot(outputVolts / gain, inputVolts);
    }
  }

  /**
   * Relative change of each reference with the board's temperature: half-widths of a product of two
   * rectangular factors, coefficient and temperature.
   */
  public record Temperature(double low, double mid, double high) {}

  /**
   * @param switchOhms half-width of the range's switch, which lies in series with the feedback
   * @param diodeAmps current of the diodes across the feedback at {@link #DIODE_VOLTS}
   * @param diodeTolerance its half-width
   * @param scaleVolts for each of these the diodes take e times as much
   */
  public record Stage(
      double switchOhms, double diodeAmps, double diodeTolerance, double scaleVolts) {
    public static final double DIODE_VOLTS = 0.35;

    /** Share of the diodes' current at DIODE_VOLTS that they take at another voltage. */
    public double diodeShare(double volts) {
      return Math.sinh(volts / scaleVolts) / Math.sinh(DIODE_VOLTS / scaleVolts);
    }

    /**
     * What a sine on top adds to that share on average: it grows by the modified Bessel function I₀
     * of the sine's peak.
     */
    public double humShare(double volts, double peakVolts) {
      double x = peakVolts / scaleVolts;
      double term = 1;
      double bessel = 1;
      for (int k = 1; term > 1e-12 * bessel; k++) {
        term *= x * x / (4.0 * k * k);
        bessel += term;
      }
      return diodeShare(volts) * (bessel - 1);
    }
  }

  /** This board with more noise than its description says. */
  BoardModel noisier(double factor) {
    return new BoardModel(
        excitationVolts,
        limiterOhms,
        lowReferenceOhms,
        lowReferenceTolerance,
        midReferenceOhms,
        midReferenceTolerance,
        highReferenceOhms,
        highReferenceTolerance,
        temperature,
        stage,
        pathOhms,
        dividerOhms,
        monitorRatio,
        checkHighOhms,
        checkLowOhms,
        gainTolerance,
        leakageAmps,
        leakagePerVolt,
        tapLeakageAmps,
        tapOhms,
        converterVolts,
        strayFarads,
        strayTolerance,
        noise.times(factor));
  }

  public double feedbackOhms(Probe.End end) {
    return switch (end) {
      case LOW -> lowReferenceOhms;
      case MID -> midReferenceOhms;
      case HIGH -> highReferenceOhms;
      case NONE, CHECK_HIGH, SOFT -> throw new IllegalArgumentException("end=" + end);
    };
  }

  public double referenceTolerance(Probe.End end) {
    return switch (end) {
      case LOW -> lowReferenceTolerance;
      case MID -> midReferenceTolerance;
      case HIGH -> highReferenceTolerance;
      case NONE, CHECK_HIGH, SOFT -> throw new IllegalArgumentException("end=" + end);
    };
  }

  /** Half-width of the product that {@link Temperature} describes. */
  public double referenceTemperature(Probe.End end) {
    return switch (end) {
      case LOW -> temperature.low();
      case MID -> temperature.mid();
      case HIGH -> temperature.high();
      case NONE, CHECK_HIGH, SOFT -> throw new IllegalArgumentException("end=" + end);
    };
  }
}
