package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.loop.Load.Kind;
import bellwire.analysis.loop.Load.Role;
import org.hipparchus.complex.Complex;

/**
 * Parts of a 24 V class equipment with usual figures: common practice, no source. Loads are given
 * by their apparent power at 24 V.
 */
final class SampleParts {
  private static final double NOMINAL_VOLTS = 24;

  private SampleParts() {}

  /** 24 V at rated load, 27 V open; mostly resistive, as a transformer of this size is. */
  static Transformer transformer(String name, Point a, Point b, double voltAmperes) {
    return transformer(name, a, b, voltAmperes, 0);
  }

  static Transformer transformer(
      String name, Point a, Point b, double voltAmperes, double breakerAmps) {
    return new Transformer(name, a, b, 27, 24, voltAmperes, 0.3, 0, breakerAmps);
  }

  static Fuse blade(String name, Point a, Point b, double ratedAmps) {
    return new Fuse(name, a, b, FuseKind.BLADE, ratedAmps);
  }

  /** A contactor: 55 VA while its armature is open, 8 VA once pulled in. */
  static Load contactor(String name, Point a, Point b, Role role, int stage) {
    return new Load(
        name, a, b, Kind.CONTACTOR, ohms(55, 0.6), ohms(8, 0.4), 18, 12, 30, role, stage);
  }

  static Load relay(String name, Point a, Point b, Role role, int stage) {
    return new Load(name, a, b, Kind.RELAY, ohms(6, 0.6), ohms(4, 0.5), 18, 8, 30, role, stage);
  }

  /** 0.4 A. */
  static Load gasValve(String name, Point a, Point b, int stage) {
    Complex z = ohms(9.6, 0.6);
    return new Load(name, a, b, Kind.GAS_VALVE, z, z, 18, 9, 30, Role.HEAT, stage);
  }

  /** 0.25 A. */
  static Load reversingValve(String name, Point a, Point b) {
    return new Load(
        name,
        a,
        b,
        Kind.REVERSING_VALVE,
        ohms(9, 0.5),
        ohms(6, 0.5),
        18,
        10,
        30,
        Role.VALVE_COOLING,
        1);
  }

  static Load boardInput(String name, Point a, Point b, double inputOhms, Role role, int stage) {
    Complex z = new Complex(inputOhms);
    return new Load(name, a, b, Kind.BOARD_INPUT, z, z, 15, 7, 30, role, stage);
  }

  /** 0.3 A, the same while it runs and while it holds. */
  static Load motor(String name, Point a, Point b, Role role) {
    Complex z = ohms(7.2, 0.8);
    return new Load(name, a, b, Kind.MOTOR, z, z, 18, 10, 30, role, 1);
  }

  /** |Z| = U²/S with the given power factor, inductive. */
  private static Complex ohms(double voltAmperes, double powerFactor) {
    double z = NOMINAL_VOLTS * NOMINAL_VOLTS / voltAmperes;
    return new Complex(z * powerFactor, z * Math.sqrt(1 - powerFactor * powerFactor));
  }
}
