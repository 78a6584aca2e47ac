package bellwire.simbench;

/**
 * What the call-sense connector meets: a room control's terminals, their supplies, their loads. The
 * chips' inputs stand on one side of this interface, the control on the other.
 */
public interface CallSide {
  /** Nothing clipped on. */
  CallSide NONE = (lead, wetting, load, nanos) -> 0;

  /**
   * The voltage of a lead against XC at a moment.
   *
   * @param lead 0 for X1 to 15 for X16
   * @param wetting whether the board's limited supply is on XW, to come back through closed dry
   *     contacts
   * @param load whether the lead's dummy load is on
   * @param nanos of the bench's time, never less than at an earlier call
   * @return volts, of either sign
   */
  double volts(int lead, boolean wetting, boolean load, long nanos);
}
