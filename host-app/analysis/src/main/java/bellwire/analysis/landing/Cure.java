package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * One thing of an installation that may be in the way.
 *
 * @param words such as 'the jumper RC-RH is missing'
 * @param fault whether it is broken, open, touching or leaking, rather than landed or set otherwise
 * @param installation with it put right
 */
record Cure(String words, boolean fault, Installation installation) {
  /** Of a conductor that is mended. */
  private static final double SOUND_OHMS = 0.5;

  private static final String LEAKS = "the control leaks through its open calls";

  /** Whether it gives the control another supply: no cure for a control that has none. */
  boolean otherSupply() {
    return words.equals(LEAKS);
  }

  /** Faults first. */
  static List<Cure> all(Installation of) {
    List<Cure> all = new ArrayList<>();
    for (String name : of.open().stream().sorted().toList()) {
      boolean fuse = of.equipment().all(Fuse.class).stream().anyMatch(f -> f.name().equals(name));
      Set<String> open = new HashSet<>(of.open());
      open.remove(name);
      all.add(new Cure(name + (fuse ? " has opened" : " is open"), true, of.withOpen(open)));
    }
    cable(of, all);
    if (Leaks.possible(of.control())) {
      all.add(new Cure(LEAKS, true, Leaks.without(of)));
    }
    jumpers(of, all);
    lifted(of, all);
    settings(of, all);
    exchanged(of, all);
    moved(of, all);
    return all;
  }

  private static void cable(Installation of, List<Cure> all) {
    Cable cable = of.cable();
    for (Cable.Conductor broken : cable.conductors()) {
      if (broken.broken()) {
        List<Cable.Conductor> mended =
            cable.conductors().stream().map(c -> c.equals(broken) ? mended(c) : c).toList();
        Cable sound = new Cable(cable.name(), mended, cable.bridges());
        all.add(new Cure(broken.name() + " is broken", true, of.withCable(sound)));
      }
    }
    for (Cable.Bridge bridge : cable.bridges()) {
      List<Cable.Bridge> others = new ArrayList<>(cable.bridges());
      others.remove(bridge);
      String other = bridge.b();
      String words = bridge.a() + " touches " + (other == null ? "bare metal" : other);
      Cable parted = new Cable(cable.name(), cable.conductors(), others);
      all.add(new Cure(words, true, of.withCable(parted)));
    }
  }

  private static Cable.Conductor mended(Cable.Conductor c) {
    return new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), SOUND_OHMS, 0);
  }

  private static void lifted(Installation of, List<Cure> all) {
    List<Landed> landed = of.plan().landed();
    for (int i = 0; i < landed.size(); i++) {
      Landed l = landed.get(i);
      if (l.near() != null && l.far() != null) {
        List<Landed> changed = new ArrayList<>(landed);
        changed.set(i, new Landed(l.conductor(), null, null));
        String words =
            String.format(
                "%s joins %s at the equipment and %s at the control",
                l.conductor(), l.near(), l.far());
        all.add(new Cure(words, false, landed(of, changed)));
      }
    }
  }

  private static void jumpers(Installation of, List<Cure> all) {
    LandingPlan plan = of.plan();
    Set<Control.Jumper> possible = new HashSet<>(of.control().jumpers());
    possible.addAll(plan.jumpers());
    for (Control.Jumper jumper : possible) {
      Set<Control.Jumper> changed = new HashSet<>(plan.jumpers());
      boolean fitted = changed.remove(jumper);
      if (!fitted) {
        changed.add(jumper);
      }
      String words =
          String.format(
              "the jumper %s-%s is %s", jumper.a(), jumper.b(), fitted ? "fitted" : "missing");
      LandingPlan other = new LandingPlan(plan.landed(), changed, plan.settings());
      all.add(new Cure(words, false, of.withPlan(other)));
    }
  }

  private static void settings(Installation of, List<Cure> all) {
    LandingPlan plan = of.plan();
    for (Control.Setting setting : of.control().settings()) {
      for (String choice : setting.choices()) {
        if (!choice.equals(plan.settings().get(setting.name()))) {
          Map<String, String> changed = new HashMap<>(plan.settings());
          changed.put(setting.name(), choice);
          String words = String.format("'%s' is not set to '%s'", setting.name(), choice);
          LandingPlan other = new LandingPlan(plan.landed(), plan.jumpers(), changed);
          all.add(new Cure(words, false, of.withPlan(other)));
        }
      }
    }
  }

  /** Which end does not matter: both give the same loop. */
  private static void exchanged(Installation of, List<Cure> all) {
    List<Landed> landed = of.plan().landed();
    for (int i = 0; i < landed.size(); i++) {
      for (int j = i + 1; j < landed.size(); j++) {
        Landed a = landed.get(i);
        Landed b = landed.get(j);
        if (a.far() == null || b.far() == null) {
          continue;
        }
        List<Landed> changed = new ArrayList<>(landed);
        changed.set(i, new Landed(a.conductor(), a.near(), b.far()));
        changed.set(j, new Landed(b.conductor(), b.near(), a.far()));
        String words = a.conductor() + " and " + b.conductor() + " are exchanged at one end";
        all.add(new Cure(words, false, landed(of, changed)));
      }
    }
  }

  /** An end that is free, or not where it was meant to be: put under a terminal that is empty. */
  private static void moved(Installation of, List<Cure> all) {
    List<Landed> landed = of.plan().landed();
    for (boolean near : new boolean[] {true, false}) {
      List<String> empty =
          new ArrayList<>(near ? of.equipment().terminals() : of.control().terminals());
      landed.forEach(l -> empty.remove(near ? l.near() : l.far()));
      for (int i = 0; i < landed.size(); i++) {
        Landed l = landed.get(i);
        String now = near ? l.near() : l.far();
        if (l.near() == null && l.far() == null) {
          continue;
        }
        for (String terminal : empty) {
          List<Landed> changed = new ArrayList<>(landed);
          Landed other =
              near
                  ? new Landed(l.conductor(), terminal, l.far())
                  : new Landed(l.conductor(), l.near(), terminal);
          changed.set(i, other);
          String words =
              String.format(
                  "%s is %s, not under %s, %s",
                  l.conductor(),
                  now == null ? "free" : "under " + now,
                  terminal,
                  near ? "at the equipment" : "at the control");
          all.add(new Cure(words, false, landed(of, changed)));
        }
      }
    }
  }

  private static Installation landed(Installation of, List<Landed> landed) {
    return of.withPlan(new LandingPlan(landed, of.plan().jumpers(), of.plan().settings()));
  }
}
