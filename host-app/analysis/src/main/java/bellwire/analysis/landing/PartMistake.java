package bellwire.analysis.landing;

import bellwire.analysis.findings.MistakeKind;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Switch;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;

/** A jumper, a setting or a part of the equipment that is other than intended. */
public sealed interface PartMistake extends Mistake {

  /** A jumper that should be there and is not, or the other way round. */
  record JumperChanged(Jumper jumper, boolean fitted) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return fitted ? MistakeKind.JUMPER_TOO_MANY : MistakeKind.JUMPER_MISSING;
    }

    @Override
    public Installation in(Installation installation) {
      LandingPlan plan = installation.plan();
      Set<Jumper> jumpers = new HashSet<>(plan.jumpers());
      if (fitted) {
        jumpers.add(jumper);
      } else {
        jumpers.remove(jumper);
      }
      return installation.withPlan(new LandingPlan(plan.landed(), jumpers, plan.settings()));
    }

    @Override
    public String words() {
      String where = jumper.a() + " and " + jumper.b() + " " + Mistake.at(jumper.side());
      return fitted ? "a jumper between " + where + " too many" : "no jumper between " + where;
    }
  }

  record WrongSetting(String setting, String choice, String planned) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.WRONG_SETTING;
    }

    @Override
    public Installation in(Installation installation) {
      LandingPlan plan = installation.plan();
      Map<String, String> settings = new HashMap<>(plan.settings());
      settings.put(setting, choice);
      return installation.withPlan(new LandingPlan(plan.landed(), plan.jumpers(), settings));
    }

    @Override
    public String words() {
      return "setting '" + setting + "' is '" + choice + "' instead of '" + planned + "'";
    }
  }

  record FuseOpened(String fuse) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.FUSE_OPENED;
    }

    @Override
    public Installation in(Installation installation) {
      return opened(installation, fuse);
    }

    @Override
    public String words() {
      return fuse + " has opened";
    }
  }

  record SwitchOpened(Switch part) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return switch (part.kind()) {
        case FLOAT -> MistakeKind.FLOAT_OPEN;
        case LIMIT -> MistakeKind.LIMIT_OPEN;
        case PRESSURE -> MistakeKind.PRESSURE_OPEN;
        case DOOR -> MistakeKind.DOOR_OPEN;
      };
    }

    @Override
    public Installation in(Installation installation) {
      return opened(installation, part.name());
    }

    @Override
    public String words() {
      return part.name() + " is open (" + part.means() + ")";
    }
  }

  /** A transformer without its primary's supply, or burnt out. */
  record SupplyOff(String transformer) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.SUPPLY_OFF;
    }

    @Override
    public Installation in(Installation installation) {
      return without(installation, transformer);
    }

    @Override
    public String words() {
      return transformer + " gives nothing: switched off, tripped or burnt out";
    }
  }

  /** A transformer whose secondary's or primary's leads are exchanged. */
  record SupplyReversed(String transformer) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.SUPPLY_REVERSED;
    }

    @Override
    public Installation in(Installation installation) {
      Equipment equipment = installation.equipment();
      List<Element> elements = new ArrayList<>();
      for (Element e : equipment.elements()) {
        elements.add(e instanceof Transformer t && t.name().equals(transformer) ? reversed(t) : e);
      }
      return with(installation, elements);
    }

    @Override
    public String words() {
      return "the leads of the " + transformer + " exchanged";
    }

    private static Transformer reversed(Transformer t) {
      return new Transformer(
          t.name(),
          t.a(),
          t.b(),
          t.openVolts(),
          t.ratedVolts(),
          t.voltAmperes(),
          t.reactancePerResistance(),
          t.degrees() > 0 ? t.degrees() - 180 : t.degrees() + 180,
          t.breakerAmps());
    }
  }

  /** Copper within the equipment, or to the outdoor unit, that is open. */
  record WireOpen(String wire) implements PartMistake {
    @Override
    public MistakeKind kind() {
      return MistakeKind.WIRE_OPEN;
    }

    @Override
    public Installation in(Installation installation) {
      return without(installation, wire);
    }

    @Override
    public String words() {
      return wire + " is open";
    }
  }

  /** A load whose coil, or whose pair of wires, is shorted. */
  record CoilShorted(String load) implements PartMistake {
    private static final Complex SHORTED_OHMS = new Complex(0.1);

    @Override
    public MistakeKind kind() {
      return MistakeKind.COIL_SHORTED;
    }

    @Override
    public Installation in(Installation installation) {
      return dead(installation, load, SHORTED_OHMS);
    }

    @Override
    public String words() {
      return "the coil of the " + load + ", or its wires, shorted";
    }

    /** Whether a load of this name is one whose coil is shorted. */
    static boolean is(Installation installation, String name) {
      return isDead(installation, name, SHORTED_OHMS);
    }
  }

  /** A load whose coil is open, or whose plug is off. */
  record CoilOpen(String load) implements PartMistake {
    private static final Complex OPEN_OHMS = new Complex(1e9);

    @Override
    public MistakeKind kind() {
      return MistakeKind.COIL_OPEN;
    }

    @Override
    public Installation in(Installation installation) {
      return dead(installation, load, OPEN_OHMS);
    }

    @Override
    public String words() {
      return "the coil of the " + load + " is open, or its lead is off";
    }

    /** Whether a load of this name is one whose coil is open. */
    static boolean is(Installation installation, String name) {
      return isDead(installation, name, OPEN_OHMS);
    }
  }

  /** With a load that never pulls in, whatever it gets. */
  private static Installation dead(Installation installation, String load, Complex ohms) {
    return with(
        installation,
        installation.equipment().elements().stream()
            .map(e -> e instanceof Load l && l.name().equals(load) ? dead(l, ohms) : e)
            .toList());
  }

  /** Whether a load is what {@link #dead} made of it. */
  private static boolean isDead(Installation installation, String load, Complex ohms) {
    return installation.equipment().all(Load.class).stream()
        .anyMatch(
            l ->
                l.name().equals(load)
                    && Double.isInfinite(l.pickUpVolts())
                    && l.inrush().equals(ohms));
  }

  private static Load dead(Load l, Complex ohms) {
    return new Load(
        l.name(),
        l.a(),
        l.b(),
        l.kind(),
        ohms,
        ohms,
        Double.POSITIVE_INFINITY,
        Double.POSITIVE_INFINITY,
        l.mostVolts(),
        l.role(),
        l.stage());
  }

  private static Installation opened(Installation installation, String name) {
    Set<String> open = new HashSet<>(installation.open());
    open.add(name);
    return installation.withOpen(open);
  }

  private static Installation without(Installation installation, String name) {
    return with(
        installation,
        installation.equipment().elements().stream().filter(e -> !e.name().equals(name)).toList());
  }

  private static Installation with(Installation installation, List<Element> elements) {
    Equipment e = installation.equipment();
    return installation.withEquipment(
        new Equipment(e.title(), e.terminals(), elements, e.wanted()));
  }
}
