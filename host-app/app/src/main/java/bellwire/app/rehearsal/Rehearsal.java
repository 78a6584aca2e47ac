package bellwire.app.rehearsal;

import bellwire.analysis.rules.Rule;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A rehearsal as its file tells it.
 *
 * @param name of the file, without its ending
 * @param feed what the control's contacts switch
 * @param assumes what must be so for the rehearsal to fit, one sentence each
 * @param terminals in the order of the leads
 * @param times by name
 * @param rules the file's own, beside those that follow from the steps
 * @param findings in the order in which they are tried
 */
public record Rehearsal(
    String name,
    String title,
    Feed feed,
    List<String> assumes,
    List<Terminal> terminals,
    Map<String, TimeBound> times,
    List<Choice> options,
    List<Step> steps,
    List<Rule> rules,
    List<Pattern> findings,
    List<Function> functions) {

  /** What a control's contacts switch. */
  public enum Feed {
    /** The control's own 24 V. */
    AC,
    /** Nothing: dry contacts, sensed by the board's wetting supply. */
    DRY
  }

  /**
   * Something that is right in some installations.
   *
   * @param drops rules that do not hold then
   */
  public record Choice(String name, String says, Set<String> drops) {}

  /**
   * A defect known by the rules it breaks.
   *
   * @param all rules that must be broken; a name may end in an asterisk
   * @param any one of these must be broken too, where there are any
   * @param none that must not be broken
   * @param covers rules that need no finding of their own then
   */
  public record Pattern(
      String name,
      String says,
      String remedy,
      List<String> all,
      List<String> any,
      List<String> none,
      List<String> covers) {}

  /** A function of the control and the steps that show it. */
  public record Function(String name, List<String> steps) {}

  /** The terminal of this name, null where there is none. */
  public @Nullable Terminal terminal(String wanted) {
    return terminals.stream().filter(t -> t.name().equals(wanted)).findFirst().orElse(null);
  }

  /** A named time; the reader has made sure that it is there. */
  public long micros(String time) {
    TimeBound bound = times.get(time);
    if (bound == null) {
      throw new IllegalArgumentException("time=" + time);
    }
    return bound.micros();
  }

  public Step step(String wanted) {
    return steps.stream()
        .filter(s -> s.name().equals(wanted))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("step=" + wanted));
  }
}
