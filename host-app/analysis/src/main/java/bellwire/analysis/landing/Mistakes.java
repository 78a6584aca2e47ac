package bellwire.analysis.landing;

import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.PoorJoint;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.LandingMistake.Mislanded;
import bellwire.analysis.landing.LandingMistake.NotLanded;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Control.Setting;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.Switch;
import bellwire.analysis.loop.Transformer;
import bellwire.analysis.loop.Wire;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** All mistakes an installation allows. */
public final class Mistakes {
  private static final double ON_THE_WAY = 0.5;

  private final Installation intended;
  private final Set<Mistake> found = new LinkedHashSet<>();

  private Mistakes(Installation intended) {
    this.intended = intended;
  }

  /** Every single mistake that changes something, in a fixed order, none twice. */
  public static List<Mistake> single(Installation intended) {
    Mistakes all = new Mistakes(intended);
    for (Side side : List.of(Side.FAR, Side.NEAR)) {
      all.landings(side);
      all.touches(side);
    }
    all.copper();
    all.plan();
    all.parts();
    return all.found.stream().filter(m -> !m.in(intended).equals(intended)).toList();
  }

  private void landings(Side side) {
    List<Landed> landed = intended.plan().landed();
    for (int i = 0; i < landed.size(); i++) {
      String here = under(landed.get(i), side);
      String name = landed.get(i).conductor();
      if (here != null) {
        found.add(new NotLanded(side, name, here));
        for (String terminal : terminals(side)) {
          if (!terminal.equals(here)) {
            found.add(new Mislanded(side, name, here, terminal, taken(side, terminal)));
          }
        }
      }
      for (int j = i + 1; j < landed.size(); j++) {
        String there = under(landed.get(j), side);
        if (here != null || there != null) {
          found.add(new Exchanged(side, name, here, landed.get(j).conductor(), there));
        }
      }
    }
  }

  /** Neighbours in the base's order, terminals without a conductor left out; free ends: any. */
  private void touches(Side side) {
    double at = side == Side.NEAR ? 0 : 1;
    List<String> inOrder = new ArrayList<>();
    for (String terminal : terminals(side)) {
      for (Landed l : intended.plan().landed()) {
        if (terminal.equals(under(l, side))) {
          inOrder.add(l.conductor());
        }
      }
    }
    for (int k = 0; k + 1 < inOrder.size(); k++) {
      found.add(new Touching(inOrder.get(k), inOrder.get(k + 1), at, false));
    }
    for (Landed l : intended.plan().landed()) {
      if (under(l, side) == null) {
        for (String other : inOrder) {
          found.add(new Touching(l.conductor(), other, at, true));
        }
      }
    }
  }

  private void copper() {
    List<Landed> landed = intended.plan().landed();
    for (int i = 0; i < landed.size(); i++) {
      String name = landed.get(i).conductor();
      found.add(new Broken(name));
      found.add(new PoorJoint(name));
      found.add(new TouchingMetal(name, 0));
      found.add(new TouchingMetal(name, ON_THE_WAY));
      for (int j = i + 1; j < landed.size(); j++) {
        found.add(new Touching(name, landed.get(j).conductor(), ON_THE_WAY, false));
      }
    }
  }

  private void plan() {
    for (Jumper jumper : intended.control().jumpers()) {
      boolean planned = intended.plan().jumpers().contains(jumper);
      found.add(new PartMistake.JumperChanged(jumper, !planned));
    }
    Map<String, String> planned = new HashMap<>(intended.plan().settings());
    for (Setting setting : intended.control().settings()) {
      for (String choice : setting.choices()) {
        String is = planned.getOrDefault(setting.name(), "");
        if (!choice.equals(is)) {
          found.add(new PartMistake.WrongSetting(setting.name(), choice, is));
        }
      }
    }
  }

  private void parts() {
    var equipment = intended.equipment();
    equipment.all(Fuse.class).forEach(f -> found.add(new PartMistake.FuseOpened(f.name())));
    equipment.all(Switch.class).forEach(s -> found.add(new PartMistake.SwitchOpened(s)));
    List<Transformer> transformers = equipment.all(Transformer.class);
    for (Transformer t : transformers) {
      found.add(new PartMistake.SupplyOff(t.name()));
      if (transformers.size() > 1) {
        found.add(new PartMistake.SupplyReversed(t.name()));
      }
    }
    for (Wire w : equipment.all(Wire.class)) {
      if (!w.a().equals(Point.METAL) && !w.b().equals(Point.METAL)) {
        found.add(new PartMistake.WireOpen(w.name()));
      }
    }
    for (Load l : equipment.all(Load.class)) {
      if (l.kind() != Load.Kind.BOARD_INPUT) {
        found.add(new PartMistake.CoilOpen(l.name()));
        found.add(new PartMistake.CoilShorted(l.name()));
      }
    }
  }

  private boolean taken(Side side, String terminal) {
    return intended.plan().landed().stream().anyMatch(l -> terminal.equals(under(l, side)));
  }

  private List<String> terminals(Side side) {
    return side == Side.NEAR ? intended.equipment().terminals() : intended.control().terminals();
  }

  private static @Nullable String under(Landed landed, Side side) {
    return side == Side.NEAR ? landed.near() : landed.far();
  }
}
