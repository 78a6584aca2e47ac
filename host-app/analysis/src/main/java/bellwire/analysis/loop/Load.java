package bellwire.analysis.loop;

import org.hipparchus.complex.Complex;

/**
 * What a call feeds.
 *
 * @param inrush impedance while not pulled in, ohm
 * @param holding impedance once pulled in, ohm
 * @param pickUpVolts V rms at which it pulls in for certain
 * @param holdInVolts V rms below which it drops out for certain; up to it, it may stay
 * @param mostVolts V rms that it stands for long
 * @param role what it makes the equipment do
 * @param stage of its role, from 1
 */
public record Load(
    String name,
    Point a,
    Point b,
    Kind kind,
    Complex inrush,
    Complex holding,
    double pickUpVolts,
    double holdInVolts,
    double mostVolts,
    Role role,
    int stage)
    implements Element {

  /** Kinds of load. */
  public enum Kind {
    CONTACTOR,
    RELAY,
    GAS_VALVE,
    REVERSING_VALVE,
    BOARD_INPUT,
    MOTOR,
    ACCESSORY
  }

  /** What a load makes the equipment do. */
  public enum Role {
    HEAT,
    COMPRESSOR,
    FAN,
    /** A reversing valve energised in cooling (O). */
    VALVE_COOLING,
    /** A reversing valve energised in heating (B). */
    VALVE_HEATING,
    HUMIDIFIER,
    VENTILATION,
    /** Only switches contacts, or does nothing of its own. */
    NONE
  }
}
