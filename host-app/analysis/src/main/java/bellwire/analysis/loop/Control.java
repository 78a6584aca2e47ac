package bellwire.analysis.loop;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A room control.
 *
 * @param terminals where the cable's far ends can be landed, in the base's order
 * @param supply what it lives on
 * @param contacts from which supply terminal each terminal is closed to
 * @param jumpers pairs of terminals that a jumper or a slide can join
 * @param settings each with its choices; the landing plan says which is set
 * @param states every mode, call and stage
 */
public record Control(
    String title,
    List<String> terminals,
    Supply supply,
    List<ControlContact> contacts,
    List<Jumper> jumpers,
    List<Setting> settings,
    List<State> states) {

  /** The mode switch. */
  public enum Mode {
    OFF,
    HEAT,
    COOL,
    EMERGENCY
  }

  /**
   * What a control lives on.
   *
   * @param hot terminal it is fed from
   * @param common its other terminal; null where it has none (battery, power stolen)
   * @param through terminals through whose loads it steals power while they are not called
   * @param ohms of the control as a load; stealing, of all its paths together
   * @param leastVolts V rms below which it goes blank and opens every contact; for a battery 0
   */
  public record Supply(
      Kind kind,
      @Nullable String hot,
      @Nullable String common,
      List<String> through,
      double ohms,
      double leastVolts) {

    /** Kinds of supply. */
    public enum Kind {
      BATTERY,
      COMMON,
      STOLEN
    }

    public Supply {
      through = List.copyOf(through);
    }
  }

  /**
   * A contact from a supply terminal to another.
   *
   * @param ohms closed
   * @param leakOhms open; infinite for a relay
   */
  public record ControlContact(String supply, String terminal, double ohms, double leakOhms) {}

  /** Two terminals on one side, joined by a jumper. */
  public record Jumper(Point.Side side, String a, String b) {}

  /** A setting of the installer's menu or a switch, such as 'valve' with 'O' and 'B'. */
  public record Setting(String name, List<String> choices) {
    public Setting {
      choices = List.copyOf(choices);
    }
  }

  /**
   * A terminal that is closed to its supply in a state.
   *
   * @param when settings it takes, by name; empty for always
   */
  public record Closing(String terminal, Map<String, String> when) {
    public Closing {
      when = Map.copyOf(when);
    }

    public boolean under(Map<String, String> settings) {
      for (Map.Entry<String, String> e : when.entrySet()) {
        if (!e.getValue().equals(settings.get(e.getKey()))) {
          return false;
        }
      }
      return true;
    }
  }

  /**
   * A state of the control: a mode and a call.
   *
   * @param name in words, unique: such as 'heat, second stage'
   */
  public record State(String name, Mode mode, Call call, List<Closing> closes) {
    public State {
      closes = List.copyOf(closes);
    }
  }

  public Control {
    terminals = List.copyOf(terminals);
    contacts = List.copyOf(contacts);
    jumpers = List.copyOf(jumpers);
    settings = List.copyOf(settings);
    states = List.copyOf(states);
  }
}
