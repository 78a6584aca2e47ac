package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * How to land a new control, or why it can't be landed.
 *
 * @param plan the landing; null where there is none free of findings
 * @param moves ends of conductors that change their terminal, at the control their role; in the
 *     cable's order
 * @param changes of jumpers and settings
 * @param notices of the check on the plan: worth knowing, no faults
 * @param spares unused as found and needed now
 * @param remarks sentences: loose ends to be capped, conductors that are used though not sound
 * @param shortfall why there is no plan; null where there is one
 * @param disagreements of the plan with the trade's colours; without a plan, of what was found
 * @param proved no landing has fewer moves; false where the search was cut off
 * @param effort what was searched
 */
public record Proposal(
    @Nullable LandingPlan plan,
    List<Move> moves,
    List<Change> changes,
    List<Found> notices,
    List<Spare> spares,
    List<String> remarks,
    @Nullable Shortfall shortfall,
    List<ColourConvention.Disagreement> disagreements,
    boolean proved,
    Effort effort) {

  /**
   * An end of a conductor that changes its terminal.
   *
   * @param from terminal of the equipment or of the old control; null from a free end
   * @param to null to a free end
   */
  public record Move(
      String conductor, Point.Side side, @Nullable String from, @Nullable String to) {
    /** In the trade's words, such as 'blue at the equipment: from a free end to C'. */
    public String words() {
      return conductor
          + (side == Point.Side.NEAR ? " at the equipment: " : " at the control: ")
          + (from == null
              ? "from a free end"
              : "from " + from + (side == Point.Side.FAR ? " of the old one" : ""))
          + (to == null ? " to a free end, capped" : " to " + to);
    }
  }

  /** A jumper to be fitted or taken out, or a setting. In the trade's words. */
  public sealed interface Change {
    String words();
  }

  public record JumperChange(Control.Jumper jumper, boolean fitted) implements Change {
    @Override
    public String words() {
      String place = jumper.side() == Point.Side.NEAR ? " at the equipment" : " at the control";
      String pair = "jumper " + jumper.a() + " to " + jumper.b() + place;
      return fitted ? "fit the " + pair : "leave out the " + pair;
    }
  }

  public record SettingChange(String name, String choice) implements Change {
    @Override
    public String words() {
      return "set '" + name + "' to '" + choice + "'";
    }
  }

  /**
   * A conductor that was free at an end and is needed now.
   *
   * @param farTerminal what it is needed for
   * @param proof what the survey says of it
   */
  public record Spare(String conductor, String farTerminal, String proof) {}

  /**
   * Why there is no plan.
   *
   * @param usable conductors that may be used
   * @param needed connections of the landing with the fewest; empty where no number of conductors
   *     would do
   * @param words why
   * @param alternatives what would do instead, each found to be so by the same search
   */
  public record Shortfall(
      List<String> usable, List<Needed> needed, String words, List<String> alternatives) {}

  /** A connection through the cable. */
  public record Needed(String near, String far) {}

  /**
   * @param schemes ways to connect the terminals that were followed to the end
   * @param checks landings that were checked in full
   */
  public record Effort(long schemes, long checks) {}

  public Proposal {
    moves = List.copyOf(moves);
    changes = List.copyOf(changes);
    notices = List.copyOf(notices);
    spares = List.copyOf(spares);
    remarks = List.copyOf(remarks);
    disagreements = List.copyOf(disagreements);
  }

  /** Settings that the plan needs, by name; empty without a plan. */
  public Map<String, String> settings() {
    return plan == null ? Map.of() : plan.settings();
  }
}
