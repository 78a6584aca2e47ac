package bellwire.simbench.file;

import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.Operation;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A simulated bench as its file describes it, in SI units. Ports are 0 for P1 to 15 for P16 and 16
 * for M; far positions 1 to 16; places are fractions of the cable's length from the near end; times
 * are nanoseconds since the bench's start; AC voltages are rms; spreads are half-widths.
 */
public record Bench(
    long seed,
    Cable cable,
    List<Joint> joints,
    List<Open> opens,
    List<Bridge> bridges,
    List<FarEnd> farEnd,
    List<Long> nearSeatingNanos,
    List<ForcedContact> contacts,
    List<Attached> attached,
    List<Intermittent> intermittents,
    List<Wander> wanders,
    Spread spread,
    Plug plug,
    Surroundings surroundings,
    Board board,
    Metal metal,
    Optional<Control> control) {

  public Bench {
    joints = List.copyOf(joints);
    opens = List.copyOf(opens);
    bridges = List.copyOf(bridges);
    farEnd = List.copyOf(farEnd);
    nearSeatingNanos = List.copyOf(nearSeatingNanos);
    contacts = List.copyOf(contacts);
    attached = List.copyOf(attached);
    intermittents = List.copyOf(intermittents);
    wanders = List.copyOf(wanders);
  }

  /** The same bench with another control. */
  public Bench with(Control other) {
    return new Bench(
        seed,
        cable,
        joints,
        opens,
        bridges,
        farEnd,
        nearSeatingNanos,
        contacts,
        attached,
        intermittents,
        wanders,
        spread,
        plug,
        surroundings,
        board,
        metal,
        Optional.of(other));
  }

  /**
   * @param gauge as written, for people
   * @param faradsPerMetre one conductor to all the others
   * @param toMetalFaradsPerMetre one conductor to earth, or to the drain
   */
  public record Cable(
      String gauge,
      double squareMillimetres,
      double lengthMetres,
      double celsius,
      double faradsPerMetre,
      double toMetalFaradsPerMetre,
      List<Conductor> conductors) {
    public Cable {
      conductors = List.copyOf(conductors);
    }
  }

  public record Conductor(int port, String colour, int far) {}

  /** Resistance in series. */
  public record Joint(int port, double at, double ohms) {}

  public record Open(int port, double at) {}

  /** Two conductors touching or leaking, or one and the metal (port 16). */
  public record Bridge(int portA, int portB, double at, double ohms) {}

  public enum PlugKind {
    OPEN,
    CODED,
    TIE
  }

  /**
   * What is on the far end from a time on.
   *
   * @param seated far positions whose contacts touch; empty means all
   * @param seatedFraction share of positions that touch, drawn; 1 for all
   * @param fingers far positions that skin joins, one to the next
   * @param ties far positions twisted together, {@link #METAL} for bare metal
   */
  public record FarEnd(
      long fromNanos,
      PlugKind plug,
      List<Integer> seated,
      double seatedFraction,
      List<Integer> fingers,
      double fingerOhms,
      List<List<Integer>> ties) {
    /** What M is clipped to, as it is found at the far end. */
    public static final int METAL = 0;

    public FarEnd {
      seated = List.copyOf(seated);
      fingers = List.copyOf(fingers);
      ties = List.copyOf(ties);
    }
  }

  public enum End {
    NEAR,
    FAR
  }

  /**
   * A contact that is not drawn.
   *
   * @param seating the one it holds for, counted from 1; 0 for all
   */
  public record ForcedContact(int port, End end, double ohms, int seating) {}

  /**
   * What something attached is. COIL and SECONDARY are both resistance and inductance in series;
   * CABLE is a second cable, one conductor under each port's clamp, its other end open.
   */
  public enum AttachedKind {
    COIL,
    SECONDARY,
    CAPACITOR,
    DIODE,
    BATTERY,
    CABLE,
    JUMPER
  }

  /**
   * Something connected to the cable's conductors.
   *
   * @param ports two; first anode or positive pole; one to sixteen for a CABLE
   * @param at fraction of the length from the near end; empty for the equipment's terminals, on the
   *     board's side of the near clamps
   * @param ohms in series; of a DIODE its slope
   * @param henries of a COIL or SECONDARY
   * @param coreOhms across a COIL or SECONDARY, for its iron; infinite for none
   * @param farads of a CAPACITOR
   * @param volts of a BATTERY, forward of a DIODE
   * @param lengthMetres of a CABLE
   */
  public record Attached(
      AttachedKind kind,
      List<Integer> ports,
      OptionalDouble at,
      double ohms,
      double henries,
      double coreOhms,
      double farads,
      double volts,
      double lengthMetres,
      long fromNanos,
      long untilNanos) {
    public Attached {
      ports = List.copyOf(ports);
    }
  }

  /** Half-widths of resistance and capacitance, relative, and the range of a contact. */
  public record Spread(
      double resistance, double capacitance, double contactLowOhms, double contactHighOhms) {}

  public record Plug(int number, double tolerance, double celsius) {}

  public record Surroundings(
      double ambientCelsius,
      double humVolts,
      double humHertz,
      Mains mains,
      List<Foreign> foreign,
      List<Induced> induced) {
    public Surroundings {
      foreign = List.copyOf(foreign);
      induced = List.copyOf(induced);
    }
  }

  /**
   * The wiring beside the cable.
   *
   * @param faradsEach from each conductor
   */
  public record Mains(double volts, double hertz, double faradsEach) {}

  /**
   * A source between two terminals.
   *
   * @param hertz 0 for DC, portA positive
   * @param phaseDegrees of its cosine at the bench's start; drawn where absent
   */
  public record Foreign(
      int portA,
      int portB,
      double volts,
      double hertz,
      double ohms,
      long fromNanos,
      long untilNanos,
      OptionalDouble phaseDegrees) {}

  /** A conductor's capacitance to a source that stands on earth. */
  public record Induced(
      int port, double volts, double hertz, double farads, long fromNanos, long untilNanos) {}

  /**
   * @param noise factor on the converter's noise
   * @param referenceError relative error of the low reference; drawn where absent
   * @param switchLeakageAmps half-width, of open switches and multiplexer outputs
   * @param clockDrift by which the device's clock is fast, relative
   * @param tickJitterNanos how late the agent's steps come at most, but for a few
   */
  public record Board(
      double noise,
      OptionalDouble referenceError,
      double switchLeakageAmps,
      double clockDrift,
      long tickJitterNanos) {}

  public enum MetalKind {
    EARTH,
    DRAIN
  }

  /**
   * M's clip.
   *
   * @param kind bare metal that is earth, or the cable's drain, which floats
   */
  public record Metal(boolean clipped, MetalKind kind) {}

  /**
   * The control on the call-sense connector.
   *
   * @param leads its terminal on each lead from X1 on, empty for none
   * @param actions what its operator does, by rising time
   */
  public record Control(ControlSetup setup, List<String> leads, List<Action> actions) {
    public Control {
      leads = List.copyOf(leads);
      actions = List.copyOf(actions);
    }

    /** A control with each of its terminals on a lead, in their order, and nobody at it. */
    public static Control of(ControlSetup setup) {
      return new Control(setup, setup.kind().terminals(), List.of());
    }
  }

  public record Action(long atNanos, Operation operation) {}
}
