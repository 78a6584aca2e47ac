package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static bellwire.analysis.landing.ByHand.*;
import static bellwire.analysis.landing.Made.always;
import static bellwire.analysis.landing.Made.in;
import static bellwire.analysis.landing.Made.made;
import static bellwire.analysis.landing.Mechanism.*;
import static bellwire.analysis.loop.Point.Side.NEAR;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.LandingMistake.Mislanded;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import org.hipparchus.complex.Complex;

/** Mistakes that short a supply. */
final class ShortRows {
  private static final String DRIVES = "drives ([0-9.]+) A";

  /** What the reckoning leaves out beside a short: loads in parallel, the fuse's own milliohms. */
  private static final double OTHERS = 0.03;

  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation PUMP = SampleLoops.HEAT_PUMP_O.healthy();
  private static final Installation DUAL = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();
  private static final Installation BOILER = SampleLoops.BOILER.healthy();

  private ShortRows() {}

  static List<Made> all() {
    return List.of(
        made(
            SHORT_ON_CALL,
            "furnace with cooling",
            FURNACE,
            new Mislanded(NEAR, "white", "W", "C", true),
            in(SUPPLY_SHORTED, "heat, calling").figure(DRIVES, onCall(1), OTHERS)),
        made(
            SHORT_ON_CALL,
            "furnace with cooling",
            FURNACE,
            new Mislanded(NEAR, "yellow", "Y", "C", true),
            in(SUPPLY_SHORTED, "cooling, calling").figure(DRIVES, onCall(1), OTHERS)),
        made(
            SHORT_ON_CALL,
            "furnace with cooling",
            FURNACE,
            new Mislanded(NEAR, "green", "G", "C", true),
            in(SUPPLY_SHORTED, "off, fan on", "heat, fan on", "cooling, fan on", "cooling, calling")
                .figure(DRIVES, onCall(1), OTHERS)),
        made(
            SHORT_ON_CALL,
            "two-stage heat pump over a two-stage furnace, 75 VA",
            DUAL,
            new Mislanded(NEAR, "black", "Y2", "C", true),
            in(SUPPLY_SHORTED, "heat, stage 2", "cooling, stage 2")
                .figure(DRIVES, onCall(40.0 / 75), OTHERS)),
        made(
            SHORT_ON_CALL,
            "furnace without a fuse, battery control",
            HEAT,
            new Mislanded(NEAR, "white", "W", "C", false),
            in(SHORT_WITHOUT_FUSE, "heat, calling").figure(DRIVES, onCall(1), OTHERS)),
        made(
            SHORT_ON_CALL,
            "furnace with an in-line fast fuse of 3 A, battery control",
            Variant.inLine(HEAT, "main transformer", FuseKind.FAST, 3),
            new Mislanded(NEAR, "white", "W", "C", false),
            in(SHORT_MAY_LAST, "heat, calling")
                .figure(DRIVES, onCall(1), OTHERS)
                // UL 248-14, fast: 200 % at most 2 min
                .figure("opens within ([0-9.]+) s", 120, 0)),
        made(
            SHORT_BY_MODE,
            "heat pump, valve B, control that closes B all through heat",
            Variant.set(Variant.valveByMode(Variant.valveHeating(PUMP)), "valve", "B"),
            new Mislanded(NEAR, "orange", "O", "C", true),
            in(SUPPLY_SHORTED, "heat, at rest", "heat, fan on", "heat, stage 1", "heat, stage 2")
                .figure(DRIVES, onCall(1), OTHERS)),
        made(
            SHORT_AT_ONCE,
            "furnace with cooling",
            FURNACE,
            new Touching("red", "blue", 1, false),
            always(SUPPLY_SHORTED)
                .figure(DRIVES, amps(OPEN_VOLTS, TRANSFORMER, CONDUCTOR, TOUCH, CONDUCTOR), OTHERS)
                // 9.2 A are 3.1 times 3 A: no more than at 2 times, no less than at 3.5 times
                .figure("opens after ([0-9.]+) s", 0.04, 0)
                .figure("to ([0-9.]+) s", 5, 0)),
        made(
            SHORT_AT_ONCE,
            "furnace with cooling",
            FURNACE,
            new Touching("red", "blue", 0, false),
            always(SUPPLY_SHORTED).figure(DRIVES, amps(OPEN_VOLTS, TRANSFORMER, TOUCH), OTHERS)),
        made(
            SHORT_AT_ONCE,
            "furnace with cooling",
            FURNACE,
            new Touching("red", "blue", 0.5, false),
            always(SUPPLY_SHORTED)
                .figure(DRIVES, amps(OPEN_VOLTS, TRANSFORMER, CONDUCTOR, TOUCH), OTHERS)),
        made(
            SHORT_AT_ONCE,
            "furnace with cooling, fuse 5 A, 60 m of 24 AWG",
            Variant.ohms(Variant.fuse(FURNACE, "board fuse", FuseKind.BLADE, 5), THIN_OHMS),
            new Touching("red", "blue", 1, false),
            always(SHORT_MAY_LAST)
                .figure(
                    DRIVES,
                    amps(OPEN_VOLTS, TRANSFORMER, ohms(THIN_OHMS), TOUCH, ohms(THIN_OHMS)),
                    OTHERS)),
        made(
            SHORT_AT_ONCE,
            "furnace and cooling, two transformers, breaker 3 A",
            TWO,
            new Touching("black", "blue", 1, false),
            always(SHORT_MAY_LAST)
                .figure(
                    DRIVES,
                    amps(OPEN_VOLTS, TRANSFORMER, BREAKER, CONDUCTOR, TOUCH, CONDUCTOR),
                    OTHERS)),
        made(
            SHORT_ON_CALL,
            "boiler with a zone valve, breaker 2.5 A, control that steals power",
            BOILER,
            new Mislanded(NEAR, "white", "W", "C", false),
            in(SHORT_MAY_LAST, "heat, calling")
                .figure(
                    DRIVES,
                    amps(OPEN_VOLTS, TRANSFORMER, ohms(0.3 / 2.5), CONDUCTOR, CONTACT, CONDUCTOR),
                    OTHERS)),
        made(
            SHORT_TO_METAL,
            "furnace with cooling, common bonded",
            FURNACE,
            new TouchingMetal("red", 0.5),
            always(SUPPLY_SHORTED)
                .figure(
                    DRIVES,
                    amps(OPEN_VOLTS, TRANSFORMER, CONDUCTOR.divide(2), TOUCH, BOND),
                    OTHERS)),
        made(
            SHORT_TO_METAL,
            "furnace with cooling, common bonded",
            FURNACE,
            new TouchingMetal("yellow", 0),
            in(SUPPLY_SHORTED, "cooling, calling")
                .figure(
                    DRIVES,
                    amps(OPEN_VOLTS, TRANSFORMER, CONDUCTOR, CONTACT, CONDUCTOR, TOUCH, BOND),
                    OTHERS)),
        made(
            SHORT_TO_METAL,
            "furnace without a fuse, common not bonded",
            HEAT,
            new TouchingMetal("red", 0.5),
            always(TOUCHES_METAL).figure("^([0-9.]+) V", OPEN_VOLTS, 0.001)),
        made(
            SHORT_TO_METAL,
            "furnace without a fuse, common not bonded",
            HEAT,
            new TouchingMetal("white", 0),
            in(TOUCHES_METAL, "heat, calling").figure("^([0-9.]+) V", OPEN_VOLTS, 0.001)));
  }

  /** 25.67 ohm per 1000 ft, 24 AWG (Floyd). */
  private static final double THIN_OHMS = 25.67 * 60 / 304.8;

  /** 0.3 V at its rated 3 A. */
  private static final Complex BREAKER = new Complex(0.1);

  /** Supply, contact and call conductor in series; the transformer's impedance times a factor. */
  private static double onCall(double factor) {
    return amps(OPEN_VOLTS, TRANSFORMER.multiply(factor), CONDUCTOR, CONTACT, CONDUCTOR);
  }
}
