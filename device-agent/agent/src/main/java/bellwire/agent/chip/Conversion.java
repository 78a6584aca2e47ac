package bellwire.agent.chip;

/**
 * One result of the converter, whose check byte was right.
 *
 * @param code signed 24 bit; 2^23 would be the reference voltage divided by the gain
 * @param overloaded an amplifier output neared a supply rail during the conversion, or the code is
 *     at an end of its scale
 */
public record Conversion(int code, boolean overloaded) {}
