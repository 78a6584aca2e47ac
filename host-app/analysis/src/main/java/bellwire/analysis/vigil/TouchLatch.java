package bellwire.analysis.vigil;

/**
 * What the board's latches see of a touch.
 *
 * @param blindMicros held in reset so long at the begin of each code
 * @param latchMicros a touch must last so long to be held
 */
public record TouchLatch(double blindMicros, double latchMicros) {
  TouchChance chances(TouchCodes codes) {
    return new TouchChance(
        codes.conductors() + 1, TouchDecoder.TICK_MICROS, blindMicros, latchMicros);
  }
}
