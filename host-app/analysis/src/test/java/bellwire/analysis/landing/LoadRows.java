package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static bellwire.analysis.landing.ByHand.*;
import static bellwire.analysis.landing.Made.always;
import static bellwire.analysis.landing.Made.in;
import static bellwire.analysis.landing.Made.made;
import static bellwire.analysis.landing.Made.other;
import static bellwire.analysis.landing.Mechanism.*;
import static bellwire.analysis.loop.Point.Side.FAR;
import static bellwire.analysis.loop.Point.Side.NEAR;

import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.PartMistake.WrongSetting;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import org.hipparchus.complex.Complex;

/** Mistakes by which a call reaches the wrong load, or one that is never released. */
final class LoadRows {
  private static final String GETS = "gets ([0-9.]+) V";
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation PUMP = SampleLoops.HEAT_PUMP_O.healthy();
  private static final Installation DUAL = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();

  /** 26.1 V: what a contactor pulled in gets of 27 V, two conductors and the outdoor cable away. */
  private static final double CONTACTOR_VOLTS =
      volts(OPEN_VOLTS, load(8, 0.4), TRANSFORMER, CONDUCTOR, CONTACT, CONDUCTOR, ohms(0.4));

  /** The gas valve is at the board: only the transformer is between. */
  private static final double GAS_VOLTS = volts(OPEN_VOLTS, load(9.6, 0.6), TRANSFORMER);

  private static final double RELAY_VOLTS =
      volts(OPEN_VOLTS, load(4, 0.5), TRANSFORMER, CONDUCTOR, CONTACT, CONDUCTOR);

  private static final double VALVE_VOLTS =
      volts(OPEN_VOLTS, load(6, 0.5), TRANSFORMER, CONDUCTOR, CONTACT, CONDUCTOR, ohms(0.4));

  /** What other loads on the same transformer take: up to 0.6 A through 1.9 ohm and a conductor. */
  private static final double OTHERS = 0.06;

  private static final String CONTACTOR = "compressor contactor: ([0-9.]+) V";
  private static final String GAS = "gas valve: ([0-9.]+) V";
  private static final String STRIPS = "heat strip relay: ([0-9.]+) V";
  private static final String VALVE = "reversing valve: ([0-9.]+) V";
  private static final String FURNACE_WORDS = "furnace with cooling";
  private static final String PUMP_WORDS = "heat pump with heat strips, valve O";
  private static final String DUAL_WORDS = "two-stage heat pump over a two-stage furnace";

  private LoadRows() {}

  static List<Made> landed() {
    return List.of(
        made(
            WRONG_LOAD_LANDED,
            FURNACE_WORDS,
            FURNACE,
            new Exchanged(FAR, "white", "W", "yellow", "Y"),
            in(WRONG_LOAD, "heat, calling").figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS),
            in(WRONG_LOAD, "cooling, calling").figure(GAS, GAS_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_LANDED,
            FURNACE_WORDS,
            FURNACE,
            new Exchanged(NEAR, "yellow", "Y", "green", "G"),
            in(WRONG_LOAD, "off, fan on", "heat, fan on", "cooling, fan on")
                .figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_LANDED,
            FURNACE_WORDS + ", control fed from C",
            FURNACE,
            new Exchanged(FAR, "blue", "C", "white", "W"),
            in(
                    RUNS_UNCALLED,
                    "off",
                    "off, fan on",
                    "heat, at rest",
                    "heat, fan on",
                    "cooling, at rest",
                    "cooling, fan on",
                    "cooling, calling")
                .figure(GAS, GAS_VOLTS, OTHERS),
            // The control, 288 ohm, is fed through the heat input, 1500 ohm
            always(CONTROL_BLANK).figure(GETS, volts(GAS_VOLTS, ohms(288), ohms(1500)), 0.03)),
        made(
            WRONG_LOAD_LANDED,
            PUMP_WORDS,
            PUMP,
            new Exchanged(FAR, "orange", "O/B", "white", "W1"),
            in(WRONG_DIRECTION, "heat, stage 2").figure(GETS, VALVE_VOLTS, OTHERS),
            in(WRONG_DIRECTION, "cooling, stage 1").figure(GETS, 0, 0),
            in(WRONG_LOAD, "emergency heat, stage 1").figure(VALVE, VALVE_VOLTS, OTHERS),
            in(RUNS_UNCALLED, "cooling, stage 1").figure(STRIPS, RELAY_VOLTS, OTHERS),
            in(DOES_NOT_RUN, "heat, stage 2").figure(GETS, 0, 0)),
        made(
            WRONG_LOAD_LANDED,
            DUAL_WORDS,
            DUAL,
            new Exchanged(FAR, "yellow", "Y1", "black", "Y2"),
            in(WRONG_LOAD, "heat, stage 1", "cooling, stage 1")
                .figure("second stage relay: ([0-9.]+) V", RELAY_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_LANDED,
            DUAL_WORDS,
            DUAL,
            new Exchanged(NEAR, "white", "W1", "brown", "W2"),
            in(DOES_NOT_RUN, "heat, stage 3", "emergency heat, stage 1").figure(GETS, 0, 0)));
  }

  static List<Made> touching() {
    return List.of(
        made(
            WRONG_LOAD_TOUCHING,
            FURNACE_WORDS,
            FURNACE,
            new Touching("white", "yellow", 0, false),
            in(HEAT_AND_COOL, "heat, calling", "cooling, calling")
                .figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_TOUCHING,
            FURNACE_WORDS,
            FURNACE,
            new Touching("yellow", "green", 0, false),
            in(RUNS_UNCALLED, "off, fan on", "heat, fan on", "cooling, fan on")
                .figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_TOUCHING,
            PUMP_WORDS,
            PUMP,
            new Touching("orange", "white", 1, false),
            in(HEAT_AND_COOL, "cooling, stage 1").figure(STRIPS, RELAY_VOLTS, OTHERS),
            in(WRONG_DIRECTION, "heat, stage 2").figure(GETS, VALVE_VOLTS, OTHERS),
            in(RUNS_UNCALLED, "emergency heat, stage 1").figure(VALVE, VALVE_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_TOUCHING,
            PUMP_WORDS,
            PUMP,
            new Touching("yellow", "white", 0.5, false),
            in(HEAT_AND_COOL, "cooling, stage 1").figure(STRIPS, RELAY_VOLTS, OTHERS),
            in(EMERGENCY_WITH_COMPRESSOR, "emergency heat, stage 1")
                .figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS),
            in(RUNS_UNCALLED, "heat, stage 1").figure(STRIPS, RELAY_VOLTS, OTHERS)));
  }

  static List<Made> set() {
    return List.of(
        made(
            WRONG_LOAD_SET,
            PUMP_WORDS,
            PUMP,
            new WrongSetting("valve", "B", "O"),
            in(WRONG_DIRECTION, "heat, stage 1", "heat, stage 2").figure(GETS, VALVE_VOLTS, OTHERS),
            in(WRONG_DIRECTION, "cooling, stage 1").figure(GETS, 0, 0)),
        made(
            WRONG_LOAD_SET,
            PUMP_WORDS,
            PUMP,
            new WrongSetting("equipment", "conventional", "heat pump"),
            in(WRONG_DIRECTION, "cooling, stage 1").figure(GETS, 0, 0),
            in(WRONG_LOAD, "heat, stage 1").figure(STRIPS, RELAY_VOLTS, OTHERS),
            in(DOES_NOT_RUN, "heat, stage 2").figure(GETS, 0, 0)),
        made(
            WRONG_LOAD_SET,
            PUMP_WORDS,
            PUMP,
            new WrongSetting("fan in heat", "equipment", "control"),
            in(DOES_NOT_RUN, "emergency heat, stage 1").figure(GETS, 0, 0)),
        made(
            WRONG_LOAD_SET,
            DUAL_WORDS,
            DUAL,
            new WrongSetting("equipment", "heat pump", "dual fuel"),
            in(RUNS_UNCALLED, "heat, stage 3").figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS),
            in(RUNS_UNCALLED, "heat, stage 3")
                .figure("second stage relay: ([0-9.]+) V", RELAY_VOLTS, OTHERS)),
        made(
            WRONG_LOAD_SET,
            DUAL_WORDS,
            DUAL,
            new WrongSetting("equipment", "conventional", "dual fuel"),
            in(WRONG_DIRECTION, "cooling, stage 1", "cooling, stage 2").figure(GETS, 0, 0),
            in(WRONG_LOAD, "heat, stage 1").figure(GAS, GAS_VOLTS, OTHERS),
            in(WRONG_LOAD, "heat, stage 2").figure(GAS, GAS_VOLTS, OTHERS),
            in(RUNS_UNCALLED, "heat, stage 3")
                .figure("second stage: ([0-9.]+) V", GAS_VOLTS, OTHERS)));
  }

  static List<Made> held() {
    return List.of(
        made(
            NEVER_RELEASED,
            FURNACE_WORDS,
            FURNACE,
            new Touching("red", "green", 1, false),
            in(RUNS_UNCALLED, "off", "heat, at rest", "cooling, at rest")
                .figure(
                    "fan input: ([0-9.]+) V",
                    volts(OPEN_VOLTS, ohms(1500), TRANSFORMER, CONDUCTOR, TOUCH, CONDUCTOR),
                    OTHERS)),
        made(
            NEVER_RELEASED,
            FURNACE_WORDS,
            FURNACE,
            new Touching("red", "yellow", 1, false),
            in(HEAT_AND_COOL, "heat, calling").figure(GAS, GAS_VOLTS, OTHERS),
            in(
                    RUNS_UNCALLED,
                    "off",
                    "off, fan on",
                    "heat, at rest",
                    "heat, fan on",
                    "cooling, at rest",
                    "cooling, fan on")
                .figure(CONTACTOR, CONTACTOR_VOLTS, OTHERS)),
        made(
            NEVER_RELEASED,
            "furnace without a board",
            HEAT,
            new Touching("red", "white", 0, false),
            in(RUNS_UNCALLED, "off", "heat, at rest").figure(GAS, GAS_VOLTS, OTHERS)),
        made(
            NEVER_RELEASED,
            PUMP_WORDS,
            PUMP,
            new Touching("red", "orange", 0.5, false),
            in(WRONG_DIRECTION, "heat, stage 1", "heat, stage 2").figure(GETS, VALVE_VOLTS, OTHERS),
            in(
                    RUNS_UNCALLED,
                    "off",
                    "off, fan on",
                    "heat, at rest",
                    "heat, fan on",
                    "cooling, at rest",
                    "cooling, fan on",
                    "emergency heat, at rest",
                    "emergency heat, fan on",
                    "emergency heat, stage 1")
                .figure(VALVE, VALVE_VOLTS, OTHERS)),
        other(
            NEVER_RELEASED,
            FURNACE_WORDS,
            "red and yellow touch at the control over 80 ohm of burnt copper",
            Variant.bridged(FURNACE, "red", "yellow", 80, 1),
            in(
                    TOUCH_CARRIES,
                    "off",
                    "off, fan on",
                    "heat, at rest",
                    "heat, fan on",
                    "heat, calling",
                    "cooling, at rest",
                    "cooling, fan on")
                .figure(
                    "drive ([0-9.]+) A",
                    amps(
                        OPEN_VOLTS,
                        load(55, 0.6),
                        TRANSFORMER,
                        CONDUCTOR,
                        ohms(80),
                        CONDUCTOR,
                        ohms(0.4)),
                    0.03),
            in(
                    HELD,
                    "off",
                    "off, fan on",
                    "heat, at rest",
                    "heat, fan on",
                    "heat, calling",
                    "cooling, at rest",
                    "cooling, fan on")
                .figure(
                    GETS,
                    volts(
                        OPEN_VOLTS,
                        load(55, 0.6),
                        TRANSFORMER,
                        CONDUCTOR,
                        ohms(80),
                        CONDUCTOR,
                        ohms(0.4)),
                    0.03)),
        other(
            NEVER_RELEASED,
            "furnace with cooling, heat input of 10 kohm",
            "a control that steals its power through W and Y, with no C",
            Variant.stealing(
                Variant.load(FURNACE, "heat input", new Complex(10_000)), "blue", "R", "W", "Y"),
            in(HEAT_AND_COOL, "cooling, calling").figure(GAS, GAS_VOLTS, OTHERS),
            in(
                    STOLEN_POWER,
                    "off",
                    "off, fan on",
                    "heat, at rest",
                    "heat, fan on",
                    "cooling, at rest",
                    "cooling, fan on")
                .figure(GAS, GAS_VOLTS, OTHERS)));
  }
}
