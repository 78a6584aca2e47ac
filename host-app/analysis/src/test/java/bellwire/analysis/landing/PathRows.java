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

import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.PoorJoint;
import bellwire.analysis.landing.LandingMistake.NotLanded;
import bellwire.analysis.landing.PartMistake.FuseOpened;
import bellwire.analysis.landing.PartMistake.JumperChanged;
import bellwire.analysis.landing.PartMistake.SupplyOff;
import bellwire.analysis.landing.PartMistake.SwitchOpened;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Switch;
import java.util.List;
import org.hipparchus.complex.Complex;

/** Mistakes that leave a call, or the control, without its path. */
final class PathRows {
  private static final String GETS = "gets ([0-9.]+) V";
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation BATTERY = Variant.onBattery(FURNACE, "blue");
  private static final Installation PUMP = SampleLoops.HEAT_PUMP_O.healthy();
  private static final Installation DUAL = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();
  private static final JumperChanged NO_JUMPER =
      new JumperChanged(new Jumper(FAR, "RC", "RH"), false);
  private static final String[] FAN = {
    "off, fan on", "heat, fan on", "cooling, fan on", "cooling, calling"
  };

  private PathRows() {}

  static List<Made> all() {
    return List.of(
        made(
            NO_PATH_COPPER,
            "heat pump with heat strips",
            PUMP,
            NO_JUMPER,
            in(NEVER_RUNS, "heat, stage 2", "emergency heat, stage 1").figure(GETS, 0, 0)),
        made(
            NO_PATH_COPPER,
            "two-stage heat pump over a two-stage furnace",
            DUAL,
            NO_JUMPER,
            in(NEVER_RUNS, "heat, stage 3", "emergency heat, stage 1", "emergency heat, stage 2"),
            in(NEVER_RUNS, "emergency heat, stage 2")),
        made(
            NO_PATH_COPPER,
            "furnace with cooling",
            FURNACE,
            new Broken("red"),
            always(CONTROL_BLANK).figure(GETS, 0, 0)),
        made(
            NO_PATH_COPPER,
            "furnace with cooling, battery control",
            BATTERY,
            new Broken("red"),
            in(
                NOTHING_RUNS,
                "off, fan on",
                "heat, fan on",
                "heat, calling",
                "cooling, fan on",
                "cooling, calling")),
        made(
            NO_PATH_COPPER,
            "furnace with cooling",
            FURNACE,
            new Broken("blue"),
            always(CONTROL_BLANK).figure(GETS, 0, 0)),
        made(
            NO_PATH_COPPER,
            "furnace with cooling",
            FURNACE,
            new Broken("yellow"),
            in(NEVER_RUNS, "cooling, calling").figure(GETS, 0, 0)),
        made(
                NO_PATH_COPPER,
                "furnace with cooling",
                FURNACE,
                new NotLanded(NEAR, "green", "G"),
                in(NEVER_RUNS, FAN).figure(GETS, 0, 0))
            .notice(in(ON_NOTHING, FAN)),
        made(
            NO_PATH_COPPER,
            "heat pump, valve energised in cooling",
            PUMP,
            new Broken("orange"),
            in(WRONG_DIRECTION, "cooling, stage 1").figure(GETS, 0, 0)),
        made(
            NO_PATH_COPPER,
            "two-stage heat pump over a two-stage furnace",
            DUAL,
            new Broken("black"),
            in(NEVER_RUNS, "heat, stage 2", "cooling, stage 2")),
        made(
            NO_PATH_OPENED,
            "furnace with cooling, control fed from C",
            FURNACE,
            new FuseOpened("board fuse"),
            always(CONTROL_BLANK).figure(GETS, 0, 0)),
        made(
            NO_PATH_OPENED,
            "furnace with cooling, battery control",
            BATTERY,
            new FuseOpened("board fuse"),
            in(
                NOTHING_RUNS,
                "off, fan on",
                "heat, fan on",
                "heat, calling",
                "cooling, fan on",
                "cooling, calling")),
        made(
            NO_PATH_OPENED,
            "heat pump, float switch in the supply",
            PUMP,
            new SwitchOpened(part(PUMP, "float switch")),
            always(CONTROL_BLANK).figure(GETS, 0, 0)),
        made(
            NO_PATH_OPENED,
            "furnace, float switch in the cooling call, control fed from C",
            FURNACE,
            new SwitchOpened(part(FURNACE, "float switch")),
            in(NEVER_RUNS, "cooling, calling").figure(GETS, 0, 0)),
        made(
            NO_PATH_OPENED,
            "furnace, float switch in the cooling call, battery control",
            BATTERY,
            new SwitchOpened(part(BATTERY, "float switch")),
            in(NEVER_RUNS, "cooling, calling").figure(GETS, 0, 0)),
        made(
            NO_PATH_OPENED,
            "furnace with a gas valve behind a limit switch",
            HEAT,
            new SwitchOpened(part(HEAT, "limit switch")),
            in(NOTHING_RUNS, "heat, calling")),
        made(
            NO_PATH_OPENED,
            "furnace and cooling, two transformers",
            TWO,
            new SupplyOff("heating transformer"),
            in(NEVER_RUNS, "heat, calling").figure(GETS, 0, 0)),
        other(
            NO_PATH_OPENED,
            "heat pump, float switch in the supply",
            "float switch bridged by a wire",
            Variant.wired(
                PUMP, "wire across the float switch", Point.inside("fused"), Point.near("R")),
            always(SWITCH_WITHOUT_EFFECT)),
        other(
            NO_PATH_DROP,
            "heat pump with heat strips",
            "60 m of 22 AWG for the cable",
            Variant.ohms(PUMP, LONG),
            in(MAY_NOT_PULL_IN, "heat, stage 1", "heat, stage 2", "cooling, stage 1")
                .figure(GETS, longRun(), 0.03)
                .figure("in red \\(([0-9.]+) ohm", LONG, 0.002)),
        made(
            NO_PATH_DROP,
            "furnace with cooling",
            FURNACE,
            new PoorJoint("yellow"),
            in(DOES_NOT_PULL_IN, "cooling, calling")
                .figure(
                    GETS,
                    volts(
                        OPEN_VOLTS,
                        load(55, 0.6),
                        TRANSFORMER,
                        CONDUCTOR,
                        CONTACT,
                        CONDUCTOR,
                        ohms(15),
                        ohms(0.4)),
                    0.04)),
        made(
            NO_PATH_DROP,
            "furnace with cooling",
            FURNACE,
            new PoorJoint("red"),
            in(CONTROL_RESTARTS, "cooling, calling"),
            in(DOES_NOT_PULL_IN, "cooling, calling")
                .figure(
                    GETS,
                    volts(
                        OPEN_VOLTS,
                        load(55, 0.6),
                        TRANSFORMER,
                        CONDUCTOR,
                        CONTACT,
                        CONDUCTOR,
                        ohms(15),
                        ohms(0.4)),
                    0.04)));
  }

  /** 22 AWG, 60 m: 16.14 ohm per 1000 ft (Floyd). */
  private static final double LONG = 16.14 * 60 / 304.8;

  /** The contactor while cooling starts: it, fan relay, valve and control beside one another. */
  private static double longRun() {
    Complex way = CONTACT.add(LONG);
    Complex contactor = load(55, 0.6);
    Complex outdoor = way.add(0.4).add(contactor);
    Complex others =
        parallel(
            parallel(way.add(load(4, 0.5)), way.add(load(6, 0.5)).add(0.2)), ohms(288).add(LONG));
    double atControl = volts(OPEN_VOLTS, parallel(outdoor, others), TRANSFORMER, ohms(LONG));
    return atControl * contactor.norm() / outdoor.norm();
  }

  private static Switch part(Installation of, String name) {
    return of.equipment().all(Switch.class).stream()
        .filter(s -> s.name().equals(name))
        .findFirst()
        .orElseThrow();
  }
}
