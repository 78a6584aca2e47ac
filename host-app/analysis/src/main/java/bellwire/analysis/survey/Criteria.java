package bellwire.analysis.survey;

/**
 * The limits that a verdict rests on, in one place. Common practice, no source, unless a line names
 * one; a user may change them.
 *
 * @param shortOhms below it two conductors touch
 * @param leakOhms below it a leakage is a fault
 * @param dampOhms below it, down to {@code leakOhms}, a leakage is left undecided; above it it is
 *     sound
 * @param jointSigmas robust standard deviations above its fellows at which a conductor's resistance
 *     stands out
 * @param jointFloorOhms least excess that is called a joint
 * @param spread relative standard spread of resistance among conductors of one cable
 * @param contactLowOhms least resistance of a fresh contact (clamp, plug, twist)
 * @param contactHighOhms greatest resistance of a good contact; rectangular between the two
 * @param identityOdds likelihood ratio to the second-best assignment from which a conductor counts
 *     as identified
 */
public record Criteria(
    double shortOhms,
    double leakOhms,
    double dampOhms,
    double jointSigmas,
    double jointFloorOhms,
    double spread,
    double contactLowOhms,
    double contactHighOhms,
    double identityOdds) {

  public static Criteria standard() {
    return new Criteria(100, 1e6, 10e6, 4.5, 0.06, 0.005, 0.002, 0.020, 1e6);
  }

  /** Expected resistance of one contact. */
  public double contactOhms() {
    return (contactLowOhms + contactHighOhms) / 2;
  }

  /** Half-width of one contact's rectangular distribution. */
  public double contactHalfWidthOhms() {
    return (contactHighOhms - contactLowOhms) / 2;
  }
}
