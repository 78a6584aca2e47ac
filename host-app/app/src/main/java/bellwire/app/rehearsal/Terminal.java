package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import java.util.Set;

/**
 * A terminal of the control under rehearsal.
 *
 * @param name as on the control
 * @param active level that is a call: ON, or OFF for an output that opens to call
 * @param rest level it returns to when released, ON or OFF
 * @param mayStay modes of the control in which it may keep its state when nothing asks for it, as a
 *     reversing valve's terminal may
 * @param dropOut name of the time within which it returns to rest
 */
public record Terminal(
    String name, Role role, Level active, Level rest, Set<Deed.Mode> mayStay, String dropOut) {
  public Terminal {
    mayStay = Set.copyOf(mayStay);
  }

  /** 'W1 (heat)', as a sentence names it. */
  public String words() {
    return name + " (" + role.words() + ")";
  }

  /** Whether a level is a call; {@link Level#WEAK} is none. */
  public boolean called(Level level) {
    return level == active;
  }

  /** Whether a level is the rest state; {@link Level#WEAK} never is. */
  public boolean released(Level level) {
    return level == rest;
  }
}
