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
import bellwire.analysis.landing.LandingMistake.Mislanded;
import bellwire.analysis.landing.PartMistake.JumperChanged;
import bellwire.analysis.landing.PartMistake.SupplyReversed;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import org.hipparchus.complex.Complex;

/** Mistakes that join two supplies, or mix them up. */
final class SupplyRows {
  private static final String STAND = "nothing circulates, ([0-9.]+) V";
  private static final String DRIVE = "([0-9.]+) V drive";
  private static final String AROUND = "drive ([0-9.]+) A around";
  private static final String TWO_WORDS = "furnace and cooling, two transformers";
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();
  private static final Installation PANEL = SampleLoops.ZONE_PANEL.healthy();
  private static final JumperChanged JUMPER = new JumperChanged(new Jumper(FAR, "RC", "RH"), true);

  /** Both supplies' conductors and the jumper. */
  private static final Complex HOTS = CONDUCTOR.add(CONDUCTOR).add(0.005);

  /** 0.3 V at its rated 3 A. */
  private static final Complex BREAKER = new Complex(0.1);

  private static final Complex BOTH = TRANSFORMER.add(TRANSFORMER).add(BREAKER);

  /** Three phases: the chord of 120°. */
  private static final double BETWEEN_PHASES = OPEN_VOLTS * Math.sqrt(3);

  private SupplyRows() {}

  static List<Made> all() {
    return List.of(
        made(
            SUPPLIES_AT_ONE_POINT,
            TWO_WORDS + ", commons isolated",
            TWO,
            JUMPER,
            always(SUPPLIES_MEET).figure(STAND, 0, 0)),
        made(
            SUPPLIES_AT_ONE_POINT,
            TWO_WORDS + ", commons isolated, leads of one exchanged",
            Variant.degrees(TWO, "cooling transformer", 180),
            JUMPER,
            always(SUPPLIES_MEET).figure(STAND, 2 * OPEN_VOLTS, 1e-3)),
        made(
            SUPPLIES_AT_ONE_POINT,
            TWO_WORDS + ", commons isolated, on two phases of three",
            Variant.degrees(TWO, "cooling transformer", 120),
            JUMPER,
            always(SUPPLIES_MEET).figure(STAND, BETWEEN_PHASES, 2e-3)),
        other(
            SUPPLIES_AT_ONE_POINT,
            "zone panel before a furnace, each with a transformer",
            "a wire between the panel's R and the furnace's R",
            Variant.wired(PANEL, "wire R-R", Point.near("R"), Point.inside("furnace R")),
            always(SUPPLIES_MEET).figure(STAND, 0, 0)),
        other(
            SUPPLIES_AT_ONE_POINT,
            TWO_WORDS,
            "CH tied to RC instead of to C at the equipment",
            tied("RC"),
            always(SUPPLIES_MEET).figure(STAND, 2 * OPEN_VOLTS, 1e-3)),
        made(
            SUPPLIES_AT_ONE_POINT,
            TWO_WORDS + ", CH tied to RC instead of to C",
            tied("RC"),
            new Touching("red", "yellow", 1, false),
            in(SHORT_WITHOUT_FUSE, "cooling, calling")
                .figure(
                    "drives ([0-9.]+) A",
                    amps(OPEN_VOLTS, TRANSFORMER, CONDUCTOR, TOUCH, CONTACT, CONDUCTOR, BOND),
                    0.03),
            in(SUPPLIES_MEET, NOT_COOLING).figure(STAND, 2 * OPEN_VOLTS, 1e-3),
            in(OVERVOLTAGE, NOT_COOLING)
                .figure(
                    "gets ([0-9.]+) V",
                    volts(
                        2 * OPEN_VOLTS,
                        load(8, 0.4),
                        BOTH,
                        CONDUCTOR,
                        TOUCH,
                        CONDUCTOR,
                        BOND,
                        ohms(0.4)),
                    0.03),
            in(HEAT_AND_COOL, "heat, calling"),
            in(
                RUNS_UNCALLED,
                "off",
                "off, fan on",
                "heat, at rest",
                "heat, fan on",
                "cooling, at rest",
                "cooling, fan on")),
        made(
            SUPPLIES_AT_BOTH_ENDS,
            TWO_WORDS + ", commons joined",
            tied("C"),
            JUMPER,
            always(SUPPLIES_IN_PHASE).figure(DRIVE, 0, 0).figure(AROUND, 0, 0)),
        made(
            SUPPLIES_AT_BOTH_ENDS,
            TWO_WORDS + ", commons joined, leads of one exchanged",
            Variant.degrees(tied("C"), "cooling transformer", 180),
            JUMPER,
            always(SUPPLIES_OPPOSED)
                .figure(DRIVE, 2 * OPEN_VOLTS, 1e-3)
                .figure(AROUND, amps(2 * OPEN_VOLTS, BOTH, HOTS, BOND), 0.02)),
        made(
            SUPPLIES_AT_BOTH_ENDS,
            TWO_WORDS + ", commons joined, on two phases of three",
            Variant.degrees(tied("C"), "cooling transformer", 120),
            JUMPER,
            always(SUPPLIES_OTHER_PHASE)
                .figure(DRIVE, BETWEEN_PHASES, 2e-3)
                .figure(AROUND, amps(BETWEEN_PHASES, BOTH, HOTS, BOND), 0.02)),
        made(
            SUPPLIES_AT_BOTH_ENDS,
            TWO_WORDS + ", both commons on metal",
            bonded(),
            JUMPER,
            always(SUPPLIES_IN_PHASE).figure(AROUND, 0, 0)),
        made(
            SUPPLIES_AT_BOTH_ENDS,
            TWO_WORDS + ", both commons on metal, leads of one exchanged",
            Variant.degrees(bonded(), "cooling transformer", 180),
            JUMPER,
            always(SUPPLIES_OPPOSED)
                .figure(AROUND, amps(2 * OPEN_VOLTS, BOTH, HOTS, BOND, BOND), 0.02)),
        made(
            SUPPLIES_AT_BOTH_ENDS,
            TWO_WORDS + ", commons joined, jumper in",
            JUMPER.in(tied("C")),
            new SupplyReversed("heating transformer"),
            always(SUPPLIES_OPPOSED).figure(AROUND, amps(2 * OPEN_VOLTS, BOTH, HOTS, BOND), 0.02)),
        made(
            OTHER_COMMON,
            TWO_WORDS,
            TWO,
            new Mislanded(NEAR, "blue", "C", "CH", false),
            always(COMMON_OF_OTHER_SUPPLY).figure("gets ([0-9.]+) V", 0, 0)),
        made(
            OTHER_COMMON,
            TWO_WORDS,
            TWO,
            new Exchanged(NEAR, "red", "RH", "black", "RC"),
            always(COMMON_OF_OTHER_SUPPLY).figure("gets ([0-9.]+) V", 0, 0)),
        made(
            OTHER_COMMON,
            TWO_WORDS + ", battery control",
            Variant.onBattery(TWO, "blue"),
            new Exchanged(NEAR, "red", "RH", "black", "RC"),
            in(
                COMMON_OF_OTHER_SUPPLY,
                "off, fan on",
                "heat, fan on",
                "cooling, fan on",
                "cooling, calling"),
            in(COMMON_OF_OTHER_SUPPLY, "heat, calling"),
            in(COMMON_OF_OTHER_SUPPLY, "cooling, calling")));
  }

  private static final String[] NOT_COOLING = {
    "off",
    "off, fan on",
    "heat, at rest",
    "heat, fan on",
    "heat, calling",
    "cooling, at rest",
    "cooling, fan on"
  };

  /** The heating transformer's common tied to another terminal. */
  private static Installation tied(String terminal) {
    return Variant.wired(TWO, "wire CH-" + terminal, Point.near("CH"), Point.near(terminal));
  }

  private static Installation bonded() {
    return Variant.wired(TWO, "bond of CH", Point.near("CH"), Point.METAL);
  }
}
