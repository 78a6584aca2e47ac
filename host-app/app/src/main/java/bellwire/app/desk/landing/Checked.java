package bellwire.app.desk.landing;

import bellwire.analysis.landing.Found;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.List;
import java.util.Set;

/**
 * What a check found.
 *
 * @param draft that was checked
 * @param found worst first, notices last
 * @param ways of each finding's current, in their order
 * @param states every state of the control, in its order
 */
record Checked(
    LandingDraft draft, Which which, List<Found> found, List<FindingWay> ways, List<State> states) {
  /**
   * A state of the control, and what it really does.
   *
   * @param call what it asks for, in words
   * @param closed terminals that the control closes to their supply
   * @param blank whether the control has no supply, and so closes nothing
   * @param loads those that run or may, in words with figures
   * @param troubles fuses that open, transformers overloaded, loads that chatter: in words
   * @param lit keys of what carries current
   */
  record State(
      String name,
      String call,
      List<String> closed,
      boolean blank,
      List<Run> loads,
      List<String> troubles,
      Set<String> lit) {}

  /**
   * @param word 'runs', 'may not pull in', 'chatters', 'stays in'
   */
  record Run(String load, String word, String figures, boolean wanted) {}

  long faults() {
    return found.stream().filter(f -> !f.notice()).count();
  }
}
