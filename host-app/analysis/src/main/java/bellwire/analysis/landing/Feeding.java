package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import java.util.List;
import java.util.Locale;

/** Whether the control has what it lives on. */
final class Feeding {
  /** V rms that a control stands; common practice, no source. */
  private static final double MOST_VOLTS = 30;

  private Feeding() {}

  /**
   * @param low the same with low mains
   * @return whether the control goes blank and comes back for ever
   */
  static boolean look(Scene scene, Sightings seen, Simulation low) {
    Control.Supply supply = scene.of.control().supply();
    StateResult in = scene.result;
    double volts = in.controlVolts();
    if (supply.kind() == Control.Supply.Kind.BATTERY) {
      return false;
    }
    if (volts > MOST_VOLTS) {
      String words = String.format(Locale.ROOT, "the control gets %.1f V", volts);
      seen.fault(LoopFinding.OVERVOLTAGE, "", scene, volts, () -> account(scene, words));
    }
    if (!in.lit()) {
      if (!new Returns(scene, seen).ofControl()) {
        seen.fault(
            LoopFinding.CONTROL_BLANK,
            "",
            scene,
            -volts,
            () -> account(scene, gets(scene) + scene.cures.words(scene, StateResult::lit)));
      }
    } else if (!in.settled() && volts < supply.leastVolts()) {
      seen.fault(
          LoopFinding.CONTROL_RESTARTS,
          "",
          scene,
          -volts,
          () ->
              account(
                  scene,
                  gets(scene)
                      + " as soon as it calls"
                      + scene.cures.words(scene, StateResult::settled)));
      return true;
    } else {
      StateResult then = low.state(in.state());
      if (then.controlVolts() < supply.leastVolts()) {
        String words =
            String.format(
                Locale.ROOT,
                "%s, with the mains %.0f %% low %.1f V",
                gets(scene),
                100 * (1 - LowMains.FRACTION),
                then.controlVolts());
        seen.fault(LoopFinding.CONTROL_DOUBTFUL, "", scene, -volts, () -> account(scene, words));
      }
    }
    return false;
  }

  static String gets(Scene scene) {
    return String.format(
        Locale.ROOT,
        "the control gets %.1f V (needs %s V)",
        scene.result.controlVolts(),
        Figures.number(scene.of.control().supply().leastVolts()));
  }

  private static Account account(Scene scene, String words) {
    Control.Supply supply = scene.of.control().supply();
    String hot = supply.hot();
    String common = supply.common();
    List<String> where =
        hot == null || common == null
            ? List.of()
            : List.of(hot + " at the control", common + " at the control");
    return new Account(words, List.of(), where);
  }
}
