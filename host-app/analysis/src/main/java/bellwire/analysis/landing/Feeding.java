package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.StateResult;
import java.util.List;
import java.util.Locale;

/** Whether the control has what it lives on. */
final class Feeding {
  /** A control that gets less than this much more than it needs may go blank; CP. */
  static final double MARGIN = 1.1;

  private Feeding() {}

  static void look(Scene scene, Sightings seen) {
    Control.Supply supply = scene.of.control().supply();
    StateResult in = scene.result;
    if (supply.kind() == Control.Supply.Kind.BATTERY) {
      return;
    }
    if (!in.lit()) {
      if (!new Returns(scene, seen).ofControl()) {
        seen.fault(
            LoopFinding.CONTROL_BLANK,
            "",
            scene,
            -in.controlVolts(),
            () -> account(scene, Cure.words(scene, StateResult::lit)));
      }
    } else if (in.controlVolts() < supply.leastVolts() * MARGIN) {
      seen.fault(
          LoopFinding.CONTROL_DOUBTFUL, "", scene, -in.controlVolts(), () -> account(scene, ""));
    }
  }

  static String gets(Scene scene) {
    return String.format(
        Locale.ROOT,
        "the control gets %.1f V (needs %s V)",
        scene.result.controlVolts(),
        Figures.number(scene.of.control().supply().leastVolts()));
  }

  private static Account account(Scene scene, String cure) {
    Control.Supply supply = scene.of.control().supply();
    String hot = supply.hot();
    String common = supply.common();
    List<String> where =
        hot == null || common == null
            ? List.of()
            : List.of(hot + " at the control", common + " at the control");
    return new Account(gets(scene) + cure, List.of(), where);
  }
}
