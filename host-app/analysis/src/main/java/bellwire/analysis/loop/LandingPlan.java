package bellwire.analysis.loop;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Which conductor is under which terminal at both ends, which jumpers are fitted, and how the
 * control is set.
 *
 * @param landed one for each conductor of the cable, in its order; two under one clamp are allowed
 * @param jumpers fitted
 * @param settings of the control, by name: every one of its settings
 */
public record LandingPlan(
    List<Landed> landed, Set<Control.Jumper> jumpers, Map<String, String> settings) {

  /**
   * A conductor's two terminals.
   *
   * @param conductor its name in the cable
   * @param near terminal of the equipment; null where its end is free
   * @param far terminal of the control; null where its end is free
   */
  public record Landed(String conductor, @Nullable String near, @Nullable String far) {}

  public LandingPlan {
    landed = List.copyOf(landed);
    jumpers = Set.copyOf(jumpers);
    settings = Map.copyOf(settings);
  }
}
