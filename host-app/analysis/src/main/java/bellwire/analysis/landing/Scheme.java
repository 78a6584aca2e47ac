package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Which terminals the cable joins, with jumpers and settings, whichever conductors do it. */
record Scheme(List<Connection> connections, Fittings fittings) {

  /**
   * Jumpers fitted, and settings.
   *
   * @param changes jumpers and settings that differ from what is at hand
   */
  record Fittings(Set<Control.Jumper> jumpers, Map<String, String> settings, int changes) {}
}
