package bellwire.analysis.landing;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Closing;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.Supply;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Transformer;
import bellwire.analysis.loop.Wire;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.hipparchus.complex.Complex;

/** Installations that differ from a sample in one thing. */
final class Variant {
  private Variant() {}

  static Installation onBattery(Installation of, String common) {
    Supply battery = new Supply(Supply.Kind.BATTERY, null, null, List.of(), 0, 0);
    return landed(with(of, battery, of.control().contacts()), common, null, null);
  }

  /** Steals its power: 5 kohm from hot to each terminal not called, 30 kohm of leakage beside. */
  static Installation stealing(Installation of, String common, String hot, String... through) {
    Supply stolen = new Supply(Supply.Kind.STOLEN, hot, null, List.of(through), 5000, 12);
    List<ControlContact> leaky =
        of.control().contacts().stream()
            .map(c -> new ControlContact(c.supply(), c.terminal(), c.ohms(), 30_000))
            .toList();
    return landed(with(of, stolen, leaky), common, null, null);
  }

  private static Installation with(Installation of, Supply supply, List<ControlContact> contacts) {
    Control c = of.control();
    Control other =
        new Control(
            c.title(), c.terminals(), supply, contacts, c.jumpers(), c.settings(), c.states());
    return new Installation(of.equipment(), other, of.cable(), of.plan(), of.open());
  }

  /** A heat pump whose valve is energised in heating, and may stay so between calls. */
  static Installation valveHeating(Installation of) {
    String valve = "reversing valve";
    Map<Call, Wanted> wanted = new HashMap<>();
    of.equipment()
        .wanted()
        .forEach(
            (call, w) -> {
              Set<String> must = new HashSet<>(w.must());
              boolean pump = call == Call.HEAT_1 || call == Call.HEAT_2;
              must.remove(valve);
              if (pump) {
                must.add(valve);
              }
              wanted.put(call, new Wanted(must, call == Call.FAN ? Set.of(valve) : Set.of()));
            });
    wanted.put(Call.NONE, new Wanted(Set.of(), Set.of(valve)));
    List<Element> elements = new ArrayList<>();
    for (Element e : of.equipment().elements()) {
      elements.add(
          e instanceof Load l && l.name().equals(valve)
              ? new Load(
                  valve,
                  l.a(),
                  l.b(),
                  l.kind(),
                  l.inrush(),
                  l.holding(),
                  l.pickUpVolts(),
                  l.holdInVolts(),
                  l.mostVolts(),
                  Load.Role.VALVE_HEATING,
                  l.stage())
              : e);
    }
    Equipment e = of.equipment();
    return of.withEquipment(new Equipment(e.title(), e.terminals(), elements, wanted));
  }

  /** A control that closes the valve's terminal all through its mode, calling or not. */
  static Installation valveByMode(Installation of) {
    Control c = of.control();
    List<Control.State> states = new ArrayList<>();
    for (Control.State state : c.states()) {
      List<Closing> closes = new ArrayList<>(state.closes());
      boolean rests = state.call() == Call.NONE || state.call() == Call.FAN;
      if (rests && (state.mode() == Mode.HEAT || state.mode() == Mode.COOL)) {
        String sense = state.mode() == Mode.HEAT ? "B" : "O";
        closes.add(new Closing("O/B", Map.of("equipment", "heat pump", "valve", sense)));
      }
      states.add(new Control.State(state.name(), state.mode(), state.call(), closes));
    }
    Control other =
        new Control(
            c.title(), c.terminals(), c.supply(), c.contacts(), c.jumpers(), c.settings(), states);
    return new Installation(of.equipment(), other, of.cable(), of.plan(), of.open());
  }

  static Installation landed(Installation of, String conductor, String near, String far) {
    List<Landed> all = new ArrayList<>();
    for (Landed l : of.plan().landed()) {
      all.add(l.conductor().equals(conductor) ? new Landed(conductor, near, far) : l);
    }
    return of.withPlan(new LandingPlan(all, of.plan().jumpers(), of.plan().settings()));
  }

  static Installation set(Installation of, String setting, String choice) {
    Map<String, String> settings = new HashMap<>(of.plan().settings());
    settings.put(setting, choice);
    return of.withPlan(new LandingPlan(of.plan().landed(), of.plan().jumpers(), settings));
  }

  static Installation ohms(Installation of, double each) {
    List<Cable.Conductor> conductors =
        of.cable().conductors().stream()
            .map(c -> new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), each, 0))
            .toList();
    return of.withCable(new Cable(of.cable().name(), conductors, of.cable().bridges()));
  }

  static Installation bridged(Installation of, String a, String b, double ohms, double at) {
    List<Cable.Bridge> bridges = new ArrayList<>(of.cable().bridges());
    bridges.add(new Cable.Bridge(a, b, ohms, at));
    return of.withCable(new Cable(of.cable().name(), of.cable().conductors(), bridges));
  }

  static Installation wired(Installation of, String name, Point a, Point b) {
    List<Element> elements = new ArrayList<>(of.equipment().elements());
    elements.add(new Wire(name, a, b, 0.05));
    return with(of, elements);
  }

  static Installation fuse(Installation of, String name, FuseKind kind, double amps) {
    return each(
        of,
        e ->
            e instanceof Fuse f && f.name().equals(name)
                ? new Fuse(name, f.a(), f.b(), kind, amps)
                : e);
  }

  /** A fuse between a transformer's hot end and all that was on it. */
  static Installation inLine(Installation of, String transformer, FuseKind kind, double amps) {
    Point lead = Point.inside("in-line fuse's lead");
    List<Element> elements = new ArrayList<>();
    for (Element e : of.equipment().elements()) {
      if (e instanceof Transformer t && t.name().equals(transformer)) {
        elements.add(turned(t, lead, t.degrees()));
        elements.add(new Fuse("in-line fuse", lead, t.a(), kind, amps));
      } else {
        elements.add(e);
      }
    }
    return with(of, elements);
  }

  static Installation degrees(Installation of, String transformer, double degrees) {
    return each(
        of,
        e ->
            e instanceof Transformer t && t.name().equals(transformer)
                ? turned(t, t.a(), degrees)
                : e);
  }

  private static Transformer turned(Transformer t, Point a, double degrees) {
    return new Transformer(
        t.name(),
        a,
        t.b(),
        t.openVolts(),
        t.ratedVolts(),
        t.voltAmperes(),
        t.reactancePerResistance(),
        degrees,
        t.breakerAmps());
  }

  /** A load of another impedance, the same pulled in or not. */
  static Installation load(Installation of, String name, Complex ohms) {
    return each(
        of,
        e ->
            e instanceof Load l && l.name().equals(name)
                ? new Load(
                    name,
                    l.a(),
                    l.b(),
                    l.kind(),
                    ohms,
                    ohms,
                    l.pickUpVolts(),
                    l.holdInVolts(),
                    l.mostVolts(),
                    l.role(),
                    l.stage())
                : e);
  }

  /** A load behind a contact of its own that opens as it pulls in. */
  static Installation breakingItsOwnSupply(Installation of, String name) {
    Point lead = Point.inside("lead");
    List<Element> elements = new ArrayList<>();
    for (Element e : of.equipment().elements()) {
      if (e instanceof Load l && l.name().equals(name)) {
        elements.add(
            new Load(
                name,
                lead,
                l.b(),
                l.kind(),
                l.inrush(),
                l.holding(),
                l.pickUpVolts(),
                l.holdInVolts(),
                l.mostVolts(),
                l.role(),
                l.stage()));
        elements.add(new Contact("own contact", l.a(), lead, name, false));
      } else {
        elements.add(e);
      }
    }
    return with(of, elements);
  }

  private static Installation each(Installation of, UnaryOperator<Element> change) {
    return with(of, of.equipment().elements().stream().map(change).toList());
  }

  private static Installation with(Installation of, List<Element> elements) {
    Equipment e = of.equipment();
    return of.withEquipment(new Equipment(e.title(), e.terminals(), elements, e.wanted()));
  }

  /** The same with a control that never makes some calls. */
  static Installation without(Installation of, Call... calls) {
    Control c = of.control();
    Control fewer =
        new Control(
            c.title(),
            c.terminals(),
            c.supply(),
            c.contacts(),
            c.jumpers(),
            c.settings(),
            c.states().stream().filter(s -> !Set.of(calls).contains(s.call())).toList());
    return new Installation(of.equipment(), fewer, of.cable(), of.plan());
  }
}
