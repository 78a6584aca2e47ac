package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Load.Kind;
import bellwire.analysis.loop.Load.Role;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.hipparchus.complex.Complex;

/**
 * Draws an equipment: one or two transformers of any phase, fused or not, bonded or not; for each
 * call a load behind switches and copper, perhaps with a contact that feeds another one.
 */
final class RandomEquipment {
  static final List<String> CALLS = List.of("W1", "W2", "Y1", "Y2", "G", "O");

  private final Random random;
  private final List<String> terminals = new ArrayList<>();
  private final List<Element> elements = new ArrayList<>();
  private final Map<Call, Wanted> wanted = new EnumMap<>(Call.class);

  private RandomEquipment(Random random) {
    this.random = random;
  }

  /** With RH, CH, RC and C, or with R and C, and one call or more. */
  static Equipment draw(Random random) {
    return new RandomEquipment(random).draw();
  }

  private Equipment draw() {
    boolean two = random.nextDouble() < 0.35;
    if (two) {
      supply("heating", "RH", "CH", 0);
      supply("cooling", "RC", "C", List.of(0, 0, 180, 120, -120).get(random.nextInt(5)));
    } else {
      supply("main", "R", "C", random.nextBoolean() ? 0 : 180);
    }
    List<String> calls = new ArrayList<>(CALLS);
    Collections.shuffle(calls, random);
    for (String call : calls.subList(0, random.nextInt(1, calls.size() + 1))) {
      boolean heating = two && call.startsWith("W");
      call(call, heating ? "RH" : two ? "RC" : "R", heating ? "CH" : "C");
    }
    return new Equipment("drawn", terminals, elements, wanted);
  }

  private void supply(String name, String hot, String common, int degrees) {
    terminals.add(hot);
    terminals.add(common);
    double ratedVolts = between(22, 25);
    double openVolts = ratedVolts * between(1.02, 1.25);
    double voltAmperes = List.of(20, 40, 50, 75).get(random.nextInt(4));
    double breakerAmps = random.nextDouble() < 0.3 ? 3 : 0;
    boolean fused = random.nextDouble() < 0.7;
    Point end = fused ? Point.inside(name + " hot end") : Point.near(hot);
    elements.add(
        new Transformer(
            name + " transformer",
            end,
            Point.near(common),
            openVolts,
            ratedVolts,
            voltAmperes,
            between(0, 2),
            degrees,
            breakerAmps));
    if (fused) {
      FuseKind kind = FuseKind.values()[random.nextInt(FuseKind.values().length)];
      elements.add(
          new Fuse(name + " fuse", end, Point.near(hot), kind, random.nextBoolean() ? 3 : 5));
    }
    if (random.nextDouble() < 0.6) {
      elements.add(new Wire(name + " bond", Point.near(common), Point.METAL, between(0.01, 0.2)));
    }
  }

  private void call(String terminal, String hot, String common) {
    terminals.add(terminal);
    Point from = Point.near(terminal);
    if (random.nextDouble() < 0.3) {
      Point beyond = Point.inside(terminal + " switch's end");
      Switch.Kind kind = Switch.Kind.values()[random.nextInt(Switch.Kind.values().length)];
      elements.add(new Switch(terminal + " switch", from, beyond, kind, "something is wrong"));
      from = beyond;
    }
    if (random.nextDouble() < 0.4) {
      from = through(terminal + " wire", from);
    }
    Point to = Point.near(common);
    if (random.nextDouble() < 0.4) {
      to = through(terminal + " return", to);
    }
    String load = terminal + " load";
    elements.add(load(load, from, to));
    if (random.nextDouble() < 0.35) {
      Point lead = Point.inside(terminal + " contact's lead");
      elements.add(
          new Contact(
              terminal + " contact", Point.near(hot), lead, load, random.nextDouble() < 0.85));
      elements.add(load(terminal + " second load", lead, Point.near(common)));
    }
    Call call = Call.values()[random.nextInt(1, Call.values().length)];
    wanted.put(call, new Wanted(Set.of(load), Set.of()));
  }

  private Point through(String name, Point from) {
    Point to = Point.inside(name + "'s end");
    elements.add(new Wire(name, from, to, between(0.02, 1)));
    return to;
  }

  private Load load(String name, Point a, Point b) {
    Kind kind = Kind.values()[random.nextInt(Kind.values().length)];
    Role role = Role.values()[random.nextInt(Role.values().length)];
    double holding = kind == Kind.BOARD_INPUT ? between(500, 5000) : between(40, 200);
    double ratio = kind == Kind.CONTACTOR ? between(0.1, 0.5) : 1;
    double pickUp = between(15, 20);
    double drop = between(5, 14);
    return new Load(
        name,
        a,
        b,
        kind,
        kind == Kind.BOARD_INPUT ? new Complex(holding) : ohms(holding * ratio, 0.7),
        kind == Kind.BOARD_INPUT ? new Complex(holding) : ohms(holding, 0.45),
        pickUp,
        drop,
        30,
        role,
        1);
  }

  private static Complex ohms(double modulus, double powerFactor) {
    return new Complex(modulus * powerFactor, modulus * Math.sqrt(1 - powerFactor * powerFactor));
  }

  private double between(double least, double most) {
    return least + (most - least) * random.nextDouble();
  }
}
