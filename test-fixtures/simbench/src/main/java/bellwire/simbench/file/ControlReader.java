package bellwire.simbench.file;

import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.ControlSetup.ContactKind;
import bellwire.simbench.control.ControlSetup.Contacts;
import bellwire.simbench.control.ControlSetup.Fault;
import bellwire.simbench.control.ControlSetup.Feed;
import bellwire.simbench.control.ControlSetup.PowerSource;
import bellwire.simbench.control.ControlSetup.Supply;
import bellwire.simbench.control.ControlSetup.Timing;
import bellwire.simbench.control.Defect;
import bellwire.simbench.control.Kind;
import bellwire.simbench.control.Operation;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;

/** Reads the control on the call-sense connector: what it is, its leads, and what is done to it. */
final class ControlReader {
  private static final int MAX_LEADS = 16;
  private static final int MAX_ACTIONS = 1000;
  private static final String NO_TERMINAL = "none";

  private static final Set<Defect> OF_A_TERMINAL =
      EnumSet.of(Defect.WELDED_CONTACT, Defect.LATE_DROP_OUT, Defect.CHATTER);

  private static final Set<Defect> OF_A_LENGTH =
      EnumSet.of(
          Defect.SHORT_REST_AFTER_POWER_LOSS,
          Defect.CALLS_MEET,
          Defect.LATE_DROP_OUT,
          Defect.CHATTER);

  private ControlReader() {}

  static Optional<Bench.Control> read(Section root) throws FileException {
    if (root.section("control").isEmpty()) {
      return Optional.empty();
    }
    Section s = root.required("control");
    Kind kind = s.choice("kind", Kind.class);
    ControlSetup plain = ControlSetup.healthy(kind);
    ControlSetup setup =
        new ControlSetup(
            kind,
            timing(s, plain.timing()),
            contacts(s, kind, plain.contacts()),
            feed(s, plain.feed()),
            supplies(s, plain),
            s.flag("valve-rests", plain.valveRests()),
            s.quantity(
                "clock-error",
                Dimension.FRACTION,
                -ControlSetup.MAX_CLOCK_ERROR,
                ControlSetup.MAX_CLOCK_ERROR,
                0),
            s.quantity(
                "room-drift",
                Dimension.TEMPERATURE_RATE,
                -ControlSetup.MAX_DRIFT_KELVIN_PER_HOUR,
                ControlSetup.MAX_DRIFT_KELVIN_PER_HOUR,
                0),
            defects(s, kind));
    Bench.Control control = new Bench.Control(setup, leads(s, kind), actions(s));
    s.done();
    return Optional.of(control);
  }

  private static Timing timing(Section s, Timing plain) throws FileException {
    return new Timing(
        seconds(s, "response", 0.01, plain.responseSeconds()),
        seconds(s, "drop-out", 0.01, plain.dropOutSeconds()),
        seconds(s, "stage", 0, plain.stageSeconds()),
        s.has("stage-from") && s.choice("stage-from", StageFrom.class) == StageFrom.DEMAND,
        seconds(s, "rest", 0, plain.restSeconds()),
        seconds(s, "minimum-on", 0, plain.minimumOnSeconds()),
        seconds(s, "overrun", 0, plain.overrunSeconds()),
        seconds(s, "changeover", 0.01, plain.changeoverSeconds()),
        seconds(s, "fan-lead", -10, plain.fanLeadSeconds()),
        seconds(s, "valve-lead", 0, plain.valveLeadSeconds()));
  }

  private enum StageFrom {
    FIRST,
    DEMAND
  }

  private static double seconds(Section s, String key, double low, double absent)
      throws FileException {
    return s.quantity(key, Dimension.TIME, low, 3600, absent);
  }

  private static Contacts contacts(Section s, Kind kind, Contacts plain) throws FileException {
    ContactKind of =
        s.has("contacts") ? s.choice("contacts", ContactKind.class) : ContactKind.RELAY;
    boolean relay = of == ContactKind.RELAY;
    if (kind == Kind.BOILER_DRY && !relay) {
      throw s.problemAt(
          "contacts",
          "no dry contact in control: contacts=" + s.text("contacts"),
          "a boiler-dry control switches with a relay");
    }
    return new Contacts(
        of,
        1e3 * s.quantity("operate", Dimension.TIME, 1e-4, 0.1, plain.operateMillis() * 1e-3),
        1e3 * s.quantity("release", Dimension.TIME, 1e-4, 0.1, plain.releaseMillis() * 1e-3),
        1e3 * s.quantity("bounce", Dimension.TIME, 0, 0.01, plain.bounceMillis() * 1e-3),
        relay ? 0 : s.quantity("leak", Dimension.FRACTION, 0, 1, 0.3),
        relay ? 0 : s.quantity("loaded-leak", Dimension.FRACTION, 0, 1, 0.01));
  }

  private static Feed feed(Section s, Feed plain) throws FileException {
    return new Feed(
        s.has("power") ? s.choice("power", PowerSource.class) : plain.source(),
        seconds(s, "boot", 0, plain.bootSeconds()),
        1e3 * s.quantity("hold-up", Dimension.TIME, 0, 10, plain.holdUpMillis() * 1e-3),
        s.flag("rest-restarts", plain.restRestarts()));
  }

  private static List<Supply> supplies(Section s, ControlSetup plain) throws FileException {
    if (!s.has("supplies")) {
      return plain.supplies();
    }
    List<Supply> supplies = new ArrayList<>();
    for (Section t : s.sections("supplies", 2)) {
      supplies.add(
          new Supply(
              t.quantity("volts", Dimension.VOLTAGE, 0, 30, 24),
              t.quantity("hz", Dimension.FREQUENCY, 45, 65, 60),
              t.number("phase", -360, 360, 0),
              t.quantity("sag", Dimension.FRACTION, 0, 0.1, 0.01)));
      t.done();
    }
    int needed = ControlSetup.supplies(plain.kind());
    if (supplies.size() != needed) {
      throw s.problemAt(
          "supplies",
          "wrong number of supplies in control: supplies=" + supplies.size() + " of them",
          "this kind takes " + needed);
    }
    return supplies;
  }

  private static List<Fault> defects(Section s, Kind kind) throws FileException {
    List<Fault> faults = new ArrayList<>();
    for (Section d : s.sections("defects", MAX_LEADS)) {
      Defect defect = d.choice("defect", Defect.class);
      if (!defect.canShow(kind)) {
        throw d.problemAt(
            "defect",
            "a defect that this kind can't have: defect=" + d.text("defect"),
            "leave it out or take another kind");
      }
      Fault typical = Fault.typical(kind, defect);
      String terminal =
          OF_A_TERMINAL.contains(defect) && d.has("terminal")
              ? terminal(d, "terminal", d.text("terminal"), d.lineAt("terminal"), kind)
              : typical.terminal();
      double seconds = OF_A_LENGTH.contains(defect) ? seconds(d, "time", 0, typical.seconds()) : 0;
      faults.add(new Fault(defect, terminal, seconds));
      d.done();
    }
    return faults;
  }

  private static String terminal(Section s, String key, String text, int line, Kind kind)
      throws FileException {
    if (!kind.terminals().contains(text)) {
      throw s.problem(
          line,
          "no such terminal of this kind: " + key + "=" + text,
          "use one of " + String.join(", ", kind.terminals()));
    }
    return text;
  }

  private static List<String> leads(Section s, Kind kind) throws FileException {
    if (!s.has("leads")) {
      return kind.terminals();
    }
    List<String> leads = new ArrayList<>();
    if (s.isList("leads")) {
      for (Node node : s.items("leads", MAX_LEADS)) {
        String text = node instanceof ScalarNode scalar ? scalar.getValue() : "";
        leads.add(lead(s, "leads", text, Section.lineOf(node), kind, leads));
      }
      return leads;
    }
    Section named = s.required("leads");
    for (int i = 1; i <= MAX_LEADS; i++) {
      String key = "X" + i;
      String text = named.has(key) ? named.text(key) : NO_TERMINAL;
      leads.add(lead(named, key, text, named.lineAt(key), kind, leads));
    }
    named.done();
    return leads;
  }

  private static String lead(
      Section s, String key, String text, int line, Kind kind, List<String> before)
      throws FileException {
    if (text.equals(NO_TERMINAL)) {
      return "";
    }
    if (before.contains(text)) {
      throw s.problem(line, "a terminal on two leads: " + key + "=" + text, "name it once");
    }
    return terminal(s, key, text, line, kind);
  }

  private static List<Bench.Action> actions(Section s) throws FileException {
    List<Bench.Action> actions = new ArrayList<>();
    long last = -1;
    for (Section a : s.sections("actions", MAX_ACTIONS)) {
      long at = a.nanos("at");
      if (at <= last) {
        throw a.problemAt(
            "at", "times out of order in actions: at=" + a.text("at"), "list them by rising time");
      }
      last = at;
      actions.add(new Bench.Action(at, operation(a)));
      a.done();
    }
    return actions;
  }

  private static Operation operation(Section a) throws FileException {
    Operation.Mode mode = a.has("mode") ? a.choice("mode", Operation.Mode.class) : null;
    Operation.Fan fan = a.has("fan") ? a.choice("fan", Operation.Fan.class) : null;
    @Nullable Double set =
        a.has("set")
            ? (Double)
                a.quantity(
                    "set",
                    Dimension.TEMPERATURE_DIFFERENCE,
                    -Operation.MAX_KELVIN,
                    Operation.MAX_KELVIN)
            : null;
    @Nullable Boolean power =
        a.has("power") ? (Boolean) (a.choice("power", Power.class) == Power.ON) : null;
    if (mode == null && fan == null && set == null && power == null) {
      throw a.problemHere(
          "an action that does nothing", "give it mode, fan, set or power, like 'mode: heat'");
    }
    return new Operation(mode, fan, set, power);
  }

  private enum Power {
    ON,
    OFF
  }
}
