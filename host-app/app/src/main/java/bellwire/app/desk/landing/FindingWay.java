package bellwire.app.desk.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Found;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The way of a finding's current along the cable. A load that a relay's contact feeds has none of
 * its own there: what closes the relay comes along the conductors, and is followed too.
 *
 * @param words a line for each relay that was followed, with the way of its current
 * @param keys of the strips' drawing
 */
record FindingWay(List<String> words, Set<String> keys) {
  FindingWay {
    words = List.copyOf(words);
    keys = Set.copyOf(keys);
  }

  static FindingWay of(
      Found found, Installation installation, Simulation simulation, PathKeys keys) {
    List<Contact> contacts = installation.equipment().all(Contact.class);
    Set<String> names = new LinkedHashSet<>(found.path().isEmpty() ? found.where() : found.path());
    List<String> words = new ArrayList<>();
    StateResult in = state(found, simulation);
    if (in == null) {
      return new FindingWay(words, keys.of(List.copyOf(names)));
    }
    if (found.kind() == LoopFinding.HEAT_AND_COOL) {
      in.loads().stream()
          .filter(l -> l.energised() == Energised.ON)
          .filter(l -> l.load().role() == Role.HEAT || l.load().role() == Role.COMPRESSOR)
          .forEach(l -> names.addAll(simulation.path(in.state(), l.load().name())));
    }
    Set<String> followed = new HashSet<>();
    for (boolean more = true; more; ) {
      more = false;
      for (Contact contact : contacts) {
        if (names.contains(contact.name()) && followed.add(contact.load())) {
          List<String> way = simulation.path(in.state(), contact.load());
          if (!way.isEmpty()) {
            words.add(contact.name() + " is closed by: " + String.join(" \u203A ", way));
            more |= names.addAll(way);
          }
        }
      }
    }
    return new FindingWay(words, keys.of(List.copyOf(names)));
  }

  /** The first that it shows in; null where the control has none. */
  private static @Nullable StateResult state(Found found, Simulation simulation) {
    for (StateResult result : simulation.states()) {
      if (found.states().isEmpty() || found.states().contains(result.state().name())) {
        return result;
      }
    }
    return null;
  }
}
