package bellwire.app.rehearsal;

import org.jspecify.annotations.Nullable;

/**
 * What the operator does to the control at the begin of a step; null leaves it as it is.
 *
 * @param setKelvin set point minus room temperature, above zero warmer than the room
 * @param power whether the control has its supply
 */
public record Deed(
    @Nullable Mode mode, @Nullable Fan fan, @Nullable Double setKelvin, @Nullable Boolean power) {

  /** The control's mode of operation. */
  public enum Mode {
    OFF,
    HEAT,
    COOL,
    EMERGENCY
  }

  /** The fan's switch. */
  public enum Fan {
    AUTO,
    ON
  }
}
