package bellwire.simbench.control;

import org.jspecify.annotations.Nullable;

/**
 * What an operator does to a control at one moment; null leaves as it is.
 *
 * @param setKelvin set point less room temperature, positive for warmer
 * @param power false takes away whatever feeds the control and its terminals: the transformers, and
 *     of a dry contact's control its own supply or battery
 */
public record Operation(
    @Nullable Mode mode, @Nullable Fan fan, @Nullable Double setKelvin, @Nullable Boolean power) {

  /** The most that a set point can differ from the room, kelvins. */
  public static final double MAX_KELVIN = 30;

  public Operation {
    if (setKelvin != null && !(Math.abs(setKelvin) <= MAX_KELVIN)) {
      throw new IllegalArgumentException("set point too far from the room: setKelvin=" + setKelvin);
    }
  }

  /** Position of the system switch; EMERGENCY counts as HEAT where a kind has none. */
  public enum Mode {
    OFF,
    HEAT,
    COOL,
    EMERGENCY
  }

  /** Position of the fan switch. */
  public enum Fan {
    AUTO,
    ON
  }

  public static Operation mode(Mode mode) {
    return new Operation(mode, null, null, null);
  }

  public static Operation mode(Mode mode, double setKelvin) {
    return new Operation(mode, null, setKelvin, null);
  }

  public static Operation fan(Fan fan) {
    return new Operation(null, fan, null, null);
  }

  public static Operation set(double setKelvin) {
    return new Operation(null, null, setKelvin, null);
  }

  public static Operation power(boolean on) {
    return new Operation(null, null, null, on);
  }
}
