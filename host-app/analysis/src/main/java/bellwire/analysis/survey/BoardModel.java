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
}
