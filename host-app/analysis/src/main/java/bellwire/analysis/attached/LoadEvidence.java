package bellwire.analysis.attached;

/**
 * What a {@link LoadLook} showed, in ampere and volt.
 *
 * @param rise currents after the excitation came on, from rest
 * @param fall currents through the low reference after the excitation went off; negative where the
 *     current goes on as it did, positive where a charge comes back
 * @param amps steady current
 * @param volts across the pair then
 * @param backAmps steady current the other way round
 * @param backVolts across the pair then, the second port positive
 */
record LoadEvidence(
    double[] rise, double[] fall, double amps, double volts, double backAmps, double backVolts) {
  static final int SIZE = LoadLook.RISE_SECONDS.length + LoadLook.FALL_SECONDS.length + 4;

  /** All readings in one row: currents in ampere, voltages divided by the loop's resistance. */
  double[] row(double loopOhms) {
    double[] row = new double[SIZE];
    System.arraycopy(rise, 0, row, 0, rise.length);
    System.arraycopy(fall, 0, row, rise.length, fall.length);
    row[SIZE - 4] = amps;
    row[SIZE - 3] = volts / loopOhms;
    row[SIZE - 2] = backAmps;
    row[SIZE - 1] = backVolts / loopOhms;
    return row;
  }
}
