package bellwire.analysis.loop;

import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Cable.Conductor;
import bellwire.analysis.loop.Control.Closing;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Control.Supply;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/**
 * Draws an installation, right or wrong: one in three a sample's equipment and control, else drawn
 * ones; a cable with copper and damp between its conductors; a plan with some of it mixed up.
 */
public final class RandomInstallation {
  private final Random random;

  private RandomInstallation(long seed) {
    random = new Random(seed);
  }

  /** The same for the same seed. */
  public static Installation draw(long seed) {
    return new RandomInstallation(seed).draw();
  }

  private Installation draw() {
    Installation start = random.nextInt(3) == 0 ? sample() : fresh();
    Cable cable = cable(start.cable());
    return new Installation(
        start.equipment(),
        start.control(),
        cable,
        mixedUp(start.plan(), start.equipment(), start.control()),
        open(start.equipment()));
  }

  private Installation sample() {
    return SampleLoops.values()[random.nextInt(SampleLoops.values().length)].healthy();
  }

  private Installation fresh() {
    Equipment equipment = RandomEquipment.draw(random);
    boolean two = equipment.terminals().contains("RH");
    Control control = control(equipment, two);
    List<Conductor> conductors = new ArrayList<>();
    List<Landed> landed = new ArrayList<>();
    for (String far : control.terminals()) {
      String near = equipment.terminals().contains(far) ? far : null;
      conductors.add(new Conductor("for " + far, null, null, 0, 0));
      landed.add(new Landed("for " + far, near, far));
    }
    conductors.add(new Conductor("spare", null, null, 0, 0));
    landed.add(new Landed("spare", null, null));
    return new Installation(
        equipment,
        control,
        new Cable("drawn", conductors, List.of()),
        new LandingPlan(landed, Set.of(), Map.of()));
  }

  private Control control(Equipment equipment, boolean two) {
    List<String> terminals = new ArrayList<>(two ? List.of("RH", "RC", "C") : List.of("R", "C"));
    List<ControlContact> contacts = new ArrayList<>();
    List<State> states = new ArrayList<>();
    List<Closing> all = new ArrayList<>();
    states.add(new State("off", Mode.OFF, Call.NONE, List.of()));
    for (String call : RandomEquipment.CALLS) {
      if (equipment.terminals().contains(call)) {
        String supply = two ? call.startsWith("W") ? "RH" : "RC" : "R";
        double leak = random.nextBoolean() ? Double.POSITIVE_INFINITY : decades(1e4, 1e6);
        terminals.add(call);
        contacts.add(new ControlContact(supply, call, between(0.02, 0.3), leak));
        Closing closing = new Closing(call, Map.of());
        all.add(closing);
        states.add(new State("calling " + call, Mode.HEAT, Call.HEAT_1, List.of(closing)));
      }
    }
    states.add(new State("calling all", Mode.COOL, Call.COOL_2, all));
    return new Control(
        "drawn",
        terminals,
        supply(two ? "RC" : "R", all),
        contacts,
        two ? List.of(new Jumper(Point.Side.FAR, "RC", "RH")) : List.of(),
        List.of(),
        states);
  }

  private Supply supply(String hot, List<Closing> calls) {
    return switch (random.nextInt(3)) {
      case 0 -> new Supply(Supply.Kind.BATTERY, null, null, List.of(), 0, 0);
      case 1 ->
          new Supply(Supply.Kind.COMMON, hot, "C", List.of(), between(150, 1000), between(12, 18));
      default ->
          new Supply(
              Supply.Kind.STOLEN,
              hot,
              null,
              calls.stream().limit(2).map(Closing::terminal).toList(),
              between(2000, 10000),
              between(5, 12));
    };
  }

  private Cable cable(Cable start) {
    List<Conductor> conductors = new ArrayList<>();
    for (Conductor c : start.conductors()) {
      boolean broken = random.nextDouble() < 0.06;
      conductors.add(
          new Conductor(
              c.name(),
              c.nearColour(),
              c.farColour(),
              broken ? Double.POSITIVE_INFINITY : decades(0.1, 5),
              0,
              broken ? random.nextInt(9) / 8.0 : Double.NaN));
    }
    List<Bridge> bridges = new ArrayList<>();
    for (int i = random.nextInt(4); i > 1; i--) {
      int a = random.nextInt(conductors.size());
      int b = random.nextInt(conductors.size() + 1);
      if (a != b) {
        bridges.add(
            new Bridge(
                conductors.get(a).name(),
                b == conductors.size() ? null : conductors.get(b).name(),
                decades(0.01, 1e6),
                random.nextInt(5) / 4.0));
      }
    }
    return new Cable(start.name(), conductors, bridges);
  }

  private LandingPlan mixedUp(LandingPlan plan, Equipment equipment, Control control) {
    List<Landed> landed = new ArrayList<>(plan.landed());
    if (random.nextBoolean()) {
      int i = random.nextInt(landed.size());
      int j = random.nextInt(landed.size());
      Landed x = landed.get(i);
      Landed y = landed.get(j);
      landed.set(i, new Landed(x.conductor(), x.near(), y.far()));
      landed.set(j, new Landed(y.conductor(), y.near(), x.far()));
    }
    int k = random.nextInt(landed.size());
    Landed moved = landed.get(k);
    switch (random.nextInt(5)) {
      case 0 -> landed.set(k, new Landed(moved.conductor(), null, moved.far()));
      case 1 ->
          landed.set(k, new Landed(moved.conductor(), any(equipment.terminals()), moved.far()));
      case 2 ->
          landed.set(k, new Landed(moved.conductor(), moved.near(), any(control.terminals())));
      default -> {}
    }
    Set<Jumper> jumpers = new HashSet<>(plan.jumpers());
    for (Jumper jumper : control.jumpers()) {
      if (random.nextInt(3) == 0 && !jumpers.remove(jumper)) {
        jumpers.add(jumper);
      }
    }
    return new LandingPlan(landed, jumpers, plan.settings());
  }

  private Set<String> open(Equipment equipment) {
    List<String> names = new ArrayList<>();
    equipment.all(Fuse.class).forEach(f -> names.add(f.name()));
    equipment.all(Switch.class).forEach(s -> names.add(s.name()));
    Collections.shuffle(names, random);
    return random.nextInt(6) == 0 && !names.isEmpty() ? Set.of(names.get(0)) : Set.of();
  }

  private String any(List<String> names) {
    return names.get(random.nextInt(names.size()));
  }

  private double between(double least, double most) {
    return least + (most - least) * random.nextDouble();
  }

  private double decades(double least, double most) {
    return least * Math.pow(most / least, random.nextDouble());
  }
}
