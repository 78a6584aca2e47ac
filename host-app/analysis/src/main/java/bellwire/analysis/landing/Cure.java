package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * One thing changed that would put a state right: so the check can say what is in the way, not only
 * what fails. Conductors are not moved: that is the planner's work.
 *
 * @param words what is in the way, such as 'the jumper RC-RH is missing'
 */
record Cure(String words, Installation installation) {
  /** Of a conductor that is mended. */
  private static final double SOUND_OHMS = 0.5;

  /** What would put it right, or nothing; begins with a comma. */
  static String words(Scene scene, Predicate<StateResult> right) {
    for (Cure cure : all(scene.of)) {
      if (right.test(new Simulation(cure.installation()).state(scene.result.state()))) {
        return ", because " + cure.words();
      }
    }
    return "";
  }

  private static List<Cure> all(Installation of) {
    List<Cure> all = new ArrayList<>();
    for (String name : of.open().stream().sorted().toList()) {
      boolean fuse = of.equipment().all(Fuse.class).stream().anyMatch(f -> f.name().equals(name));
      Set<String> open = new HashSet<>(of.open());
      open.remove(name);
      String words = fuse ? " has opened" : " is open";
      all.add(new Cure("" + name + words, of.withOpen(open)));
    }
    cable(of, all);
    jumpers(of, all);
    settings(of, all);
    return all;
  }

  private static void cable(Installation of, List<Cure> all) {
    Cable cable = of.cable();
    for (Cable.Conductor broken : cable.conductors()) {
      if (broken.broken()) {
        List<Cable.Conductor> mended =
            cable.conductors().stream().map(c -> c.equals(broken) ? mended(c) : c).toList();
        all.add(
            new Cure(
                "" + broken.name() + " is broken",
                of.withCable(new Cable(cable.name(), mended, cable.bridges()))));
      }
    }
    for (Cable.Bridge bridge : cable.bridges()) {
      List<Cable.Bridge> others = new ArrayList<>(cable.bridges());
      others.remove(bridge);
      String other = bridge.b();
      all.add(
          new Cure(
              "" + bridge.a() + " touches " + (other == null ? "bare metal" : other),
              of.withCable(new Cable(cable.name(), cable.conductors(), others))));
    }
  }

  private static Cable.Conductor mended(Cable.Conductor c) {
    return new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), SOUND_OHMS, 0);
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
      all.add(
          new Cure(
              String.format(
                  "the jumper %s-%s is %s", jumper.a(), jumper.b(), fitted ? "fitted" : "missing"),
              of.withPlan(new LandingPlan(plan.landed(), changed, plan.settings()))));
    }
  }

  private static void settings(Installation of, List<Cure> all) {
    LandingPlan plan = of.plan();
    for (Control.Setting setting : of.control().settings()) {
      for (String choice : setting.choices()) {
        if (choice.equals(plan.settings().get(setting.name()))) {
          continue;
        }
        Map<String, String> changed = new HashMap<>(plan.settings());
        changed.put(setting.name(), choice);
        all.add(
            new Cure(
                String.format("'%s' is not set to '%s'", setting.name(), choice),
                of.withPlan(new LandingPlan(plan.landed(), plan.jumpers(), changed))));
      }
    }
  }
}
