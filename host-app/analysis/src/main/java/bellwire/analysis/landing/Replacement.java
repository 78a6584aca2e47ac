package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.LandingPlan;
import java.util.Map;

/**
 * A control that is to be replaced.
 *
 * @param control the new one
 * @param doubtful conductors that the survey did not find sound, by name, each with the reason;
 *     broken ones and bridges are in the cable
 * @param asFound one for each conductor of the cable, in its order; {@code far} is the terminal of
 *     the old control; jumpers at the equipment, and those of the old control; settings may be
 *     empty
 */
public record Replacement(
    Equipment equipment,
    Control control,
    Cable cable,
    Map<String, String> doubtful,
    LandingPlan asFound) {
  public Replacement {
    doubtful = Map.copyOf(doubtful);
  }
}
