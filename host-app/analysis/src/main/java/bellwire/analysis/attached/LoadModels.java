package bellwire.analysis.attached;

import bellwire.analysis.survey.BoardModel;

/**
 * What each kind of load would show in a {@link LoadLook}. The source is V behind S (limiters, two
 * paths, low reference); dying away, the loop is D (two paths, low reference). Theory (41), (42).
 */
final class LoadModels {
  private final double volts;
  private final double loopOhms;
  private final double fallOhms;
  private final double dividerOhms;

  /**
   * @param soft whether the look was a soft one
   */
  LoadModels(BoardModel board, boolean soft) {
    fallOhms = board.lowReferenceOhms() + 2 * board.pathOhms();
    if (soft) {
      double feed = board.limiterOhms() + board.checkLowOhms();
      double share = board.lowReferenceOhms() / (board.lowReferenceOhms() + feed);
      volts = board.excitationVolts() * share;
      loopOhms = feed * share + 2 * board.pathOhms();
    } else {
      volts = board.excitationVolts();
      loopOhms = board.limiterOhms() + fallOhms;
    }
    dividerOhms = board.dividerOhms();
  }

  double loopOhms() {
    return loopOhms;
  }

  double fallOhms() {
    return fallOhms;
  }

  double fullAmps() {
    return volts / loopOhms;
  }

  /** Mean of exp(−t/τ) over a window. */
  private static double mean(double start, double width, double tau) {
    return tau / width * (Math.exp(-start / tau) - Math.exp(-(start + width) / tau));
  }

  /**
   * Resistance r and inductance h in series, the core's resistance k across both: i = i_H + v/k, v
   * = (V − S·i_H)/(1 + S/k), τ = h/(r + S·k/(S + k)).
   */
  double[] winding(double r, double h, double k) {
    double rest = 1 / (1 / r + 1 / k);
    double steady = volts / (loopOhms + rest);
    double tau = h / (r + 1 / (1 / loopOhms + 1 / k));
    double early = volts / (loopOhms + k);
    double fallTau = h / (r + 1 / (1 / fallOhms + 1 / k));
    double through = steady * rest / r;
    double left = through * k / (k + fallOhms);
    double[] rise = new double[LoadLook.RISE_SECONDS.length];
    double[] fall = new double[LoadLook.FALL_SECONDS.length];
    for (int i = 0; i < rise.length; i++) {
      double share = mean(LoadLook.RISE_SECONDS[i], LoadLook.INSTANT_SECONDS, tau);
      rise[i] = steady - (steady - early) * share;
    }
    for (int i = 0; i < fall.length; i++) {
      fall[i] = -left * mean(LoadLook.FALL_SECONDS[i], LoadLook.INSTANT_SECONDS, fallTau);
    }
    return new LoadEvidence(rise, fall, steady, steady * rest, steady, steady * rest).row(loopOhms);
  }

  double[] resistance(double r) {
    double steady = volts / (loopOhms + r);
    double[] rise = new double[LoadLook.RISE_SECONDS.length];
    java.util.Arrays.fill(rise, steady);
    return new LoadEvidence(
            rise, new double[LoadLook.FALL_SECONDS.length], steady, steady * r, steady, steady * r)
        .row(loopOhms);
  }

  double[] capacitor(double c) {
    double tau = loopOhms * c;
    double[] rise = new double[LoadLook.RISE_SECONDS.length];
    double[] fall = new double[LoadLook.FALL_SECONDS.length];
    for (int i = 0; i < rise.length; i++) {
      rise[i] = volts / loopOhms * mean(LoadLook.RISE_SECONDS[i], LoadLook.INSTANT_SECONDS, tau);
    }
    double charged = volts * (1 - Math.exp(-2 * LoadLook.CHARGED_SECONDS / tau));
    for (int i = 0; i < fall.length; i++) {
      fall[i] =
          charged
              / fallOhms
              * mean(LoadLook.FALL_SECONDS[i], LoadLook.INSTANT_SECONDS, fallOhms * c);
    }
    double left = mean(LoadLook.STEADY_SECONDS, LoadLook.QUICK_SECONDS, tau);
    double after =
        mean(2 * LoadLook.STEADY_SECONDS + LoadLook.QUICK_SECONDS, LoadLook.QUICK_SECONDS, tau);
    return new LoadEvidence(
            rise,
            fall,
            volts / loopOhms * left,
            volts * (1 - after),
            volts / loopOhms * left,
            volts * (1 - after))
        .row(loopOhms);
  }

  /**
   * @param forwardVolts across it while it conducts
   * @param turned whether it conducts from the second port to the first
   */
  double[] diode(double forwardVolts, boolean turned) {
    double on = (volts - forwardVolts) / loopOhms;
    double blocked = volts * dividerOhms / (dividerOhms + loopOhms);
    double[] rise = new double[LoadLook.RISE_SECONDS.length];
    java.util.Arrays.fill(rise, turned ? 0 : on);
    return new LoadEvidence(
            rise,
            new double[LoadLook.FALL_SECONDS.length],
            turned ? 0 : on,
            turned ? blocked : forwardVolts,
            turned ? on : 0,
            turned ? forwardVolts : blocked)
        .row(loopOhms);
  }
}
