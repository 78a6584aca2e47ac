package bellwire.analysis.landing;

import bellwire.analysis.loop.Control;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Which terminals the cable joins, with jumpers and settings, whichever conductors do it.
 *
 * @param connections by the control's terminals, then the equipment's
 */
record Scheme(List<Connection> connections, Fittings fittings) {
  Scheme {
    connections =
        connections.stream()
            .sorted(Comparator.comparingInt(Connection::far).thenComparingInt(Connection::near))
            .toList();
  }

  /**
   * Jumpers fitted, and settings.
   *
   * @param changes jumpers and settings that differ from what is at hand
   */
  record Fittings(Set<Control.Jumper> jumpers, Map<String, String> settings, int changes) {}
}
