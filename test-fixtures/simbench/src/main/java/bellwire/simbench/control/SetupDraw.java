package bellwire.simbench.control;

import bellwire.simbench.control.ControlSetup.ContactKind;
import bellwire.simbench.control.ControlSetup.Contacts;
import bellwire.simbench.control.ControlSetup.Fault;
import bellwire.simbench.control.ControlSetup.Feed;
import bellwire.simbench.control.ControlSetup.PowerSource;
import bellwire.simbench.control.ControlSetup.Supply;
import bellwire.simbench.control.ControlSetup.Timing;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Draws controls: healthy ones across all that healthy ones do, and the sizes of defects. */
final class SetupDraw {
  /** Longest from an operation to the last of the terminals it calls, real seconds. */
  private static final double LAST_CALL_SECONDS = 4.9;

  /** Longest from an operation to the last of the terminals it releases, real seconds. */
  private static final double LAST_DROP_OUT_SECONDS = 1.95;

  /** Rest between the contacts, real seconds; a maker allows for his own clock and relays. */
  private static final double LEAST_REST_SECONDS = 300.2;

  private static final double MOST_REST_SECONDS = 304.8;

  private SetupDraw() {}

  static ControlSetup healthy(Kind kind, SplittableRandom random) {
    double clockError =
        random.nextDouble(-ControlSetup.MAX_CLOCK_ERROR, ControlSetup.MAX_CLOCK_ERROR);
    return new ControlSetup(
        kind,
        timing(kind, clockError, random),
        contacts(kind, random),
        new Feed(
            random.nextBoolean() ? PowerSource.BATTERY : PowerSource.COMMON,
            random.nextDouble(0.3, 2.5),
            random.nextDouble(5, 200),
            random.nextBoolean()),
        supplies(kind, random),
        kind.heatPump() && random.nextBoolean(),
        clockError,
        0,
        List.of());
  }

  private static Timing timing(Kind kind, double clockError, SplittableRandom random) {
    double rate = 1 + clockError;
    // Electric heat must have its air from the first moment on; elsewhere G may lag.
    double fanLead = random.nextDouble(kind.fanWithW1() ? 0.05 : -1, 1);
    double valveLead = random.nextDouble(0.1, 0.5);
    double changeover = random.nextDouble(0.5, 2.5);
    double latest = LAST_CALL_SECONDS / rate - Math.abs(fanLead) - valveLead;
    return new Timing(
        random.nextDouble(0.21, latest),
        random.nextDouble(0.05, LAST_DROP_OUT_SECONDS / rate - valveLead),
        random.nextDouble(31, 590),
        random.nextBoolean(),
        random.nextDouble(LEAST_REST_SECONDS, MOST_REST_SECONDS) / rate,
        random.nextBoolean() ? 0 : random.nextDouble(0, 59),
        random.nextBoolean() ? 0 : random.nextDouble(1, 88),
        changeover,
        fanLead,
        valveLead);
  }

  private static Contacts contacts(Kind kind, SplittableRandom random) {
    boolean relay = random.nextBoolean() || kind == Kind.BOILER_DRY;
    return new Contacts(
        relay ? ContactKind.RELAY : ContactKind.SEMICONDUCTOR,
        random.nextDouble(4, 15),
        random.nextDouble(2, 10),
        random.nextDouble(0.1, 3),
        relay ? 0 : random.nextDouble(0.02, 0.7),
        relay ? 0 : random.nextDouble(0.001, 0.02));
  }

  private static List<Supply> supplies(Kind kind, SplittableRandom random) {
    double hertz = (random.nextBoolean() ? 50 : 60) * (1 + random.nextDouble(-0.001, 0.001));
    double phase = random.nextDouble(360);
    List<Supply> supplies = new ArrayList<>();
    if (kind != Kind.BOILER_DRY) {
      supplies.add(supply(hertz, phase, random));
    }
    if (kind == Kind.TWO_SUPPLIES) {
      supplies.add(supply(hertz, phase + random.nextDouble(30, 330), random));
    }
    return supplies;
  }

  private static Supply supply(double hertz, double phaseDegrees, SplittableRandom random) {
    return new Supply(
        random.nextDouble(22, 28), hertz, phaseDegrees % 360, random.nextDouble(0, 0.03));
  }

  static Fault typical(Kind kind, Defect defect) {
    String terminal =
        switch (defect) {
          case VALVE_REVERSED -> kind.valve();
          case NO_REST, SHORT_REST_AFTER_POWER_LOSS -> "Y1";
          case FAN_NOT_CALLED -> "G";
          case STAGE_MISSING -> kind == Kind.TWO_STAGE ? "W2" : "W1";
          default -> "W1";
        };
    double seconds =
        switch (defect) {
          case SHORT_REST_AFTER_POWER_LOSS, LATE_DROP_OUT -> 20;
          case CALLS_MEET -> kind == Kind.DUAL_FUEL ? 20 : 2;
          case CHATTER -> 6;
          default -> 0;
        };
    return new Fault(defect, terminal, seconds);
  }

  static Fault fault(Kind kind, Defect defect, SplittableRandom random) {
    return switch (defect) {
      case WRONG_EQUIPMENT -> new Fault(defect, kind.heatPump() ? "Y1" : "W1", 0);
      case VALVE_REVERSED -> new Fault(defect, kind.valve(), 0);
      case WELDED_CONTACT -> new Fault(defect, pick(called(kind, true), random), 0);
      case NO_REST -> new Fault(defect, "Y1", 0);
      case SHORT_REST_AFTER_POWER_LOSS -> new Fault(defect, "Y1", random.nextDouble(5, 55));
      case FAN_NOT_CALLED -> new Fault(defect, "G", 0);
      case CALLS_MEET ->
          new Fault(
              defect,
              "W1",
              kind == Kind.DUAL_FUEL ? random.nextDouble(5, 60) : random.nextDouble(0, 5));
      case STAGE_MISSING -> new Fault(defect, kind == Kind.TWO_STAGE ? "W2" : "W1", 0);
      case LATE_DROP_OUT -> late(kind, random);
      case CHATTER ->
          new Fault(defect, pick(called(kind, false), random), random.nextDouble(3, 10));
    };
  }

  /** Dual fuel's late Y1 would meet W1, which is another defect. */
  private static Fault late(Kind kind, SplittableRandom random) {
    List<String> terminals = called(kind, false);
    if (kind == Kind.DUAL_FUEL) {
      terminals.remove("Y1");
    }
    String terminal = pick(terminals, random);
    boolean fan = terminal.equals("G");
    return new Fault(
        Defect.LATE_DROP_OUT,
        terminal,
        fan ? random.nextDouble(150, 280) : random.nextDouble(5, 30));
  }

  /** Terminals that close whenever every function is gone through. */
  private static List<String> called(Kind kind, boolean withValve) {
    List<String> terminals =
        new ArrayList<>(
            switch (kind) {
              case HEAT_ONLY, BOILER_DRY -> List.of("W1");
              case TWO_STAGE -> List.of("W1", "W2", "Y1", "G");
              default -> List.of("W1", "Y1", "G");
            });
    if (withValve && kind.heatPump()) {
      terminals.add(kind.valve());
    }
    return terminals;
  }

  private static String pick(List<String> terminals, SplittableRandom random) {
    return terminals.get(random.nextInt(terminals.size()));
  }
}
