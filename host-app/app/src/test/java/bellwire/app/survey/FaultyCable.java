package bellwire.app.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.StringJoiner;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Draws bench files of 4 to 16 conductors, 14 to 24 AWG, 5 to 60 m, with one fault or two, and
 * knows what was drawn.
 */
final class FaultyCable {
  /** What is drawn. */
  enum Draw {
    HEALTHY,
    OPEN,
    JOINT,
    TOUCH,
    LEAK,
    METAL_TOUCH,
    METAL_LEAK,
    BROKEN_TOUCHING_NEAR,
    BROKEN_TOUCHING_FAR,
    TWO
  }

  /** Places and sizes as drawn; bridges have both. */
  record Drawn(Fault fault, double place, double ohms) {}

  final long seed;
  final Draw draw;
  final int conductors;
  final double length;
  final double runOhms;
  final List<Integer> ports = new ArrayList<>();
  final List<Drawn> truth = new ArrayList<>();
  private final List<Integer> far = new ArrayList<>();
  private final List<String> joints = new ArrayList<>();
  private final List<String> opens = new ArrayList<>();
  private final List<String> bridges = new ArrayList<>();
  private final List<Integer> used = new ArrayList<>();
  private final Random random;
  private final int gauge;
  private final int hertz;
  private final double celsius;

  FaultyCable(long seed, Draw draw) {
    this.seed = seed;
    this.draw = draw;
    random = new Random(seed * 6151 + draw.ordinal() * 977L + 5);
    conductors = 4 + random.nextInt(13);
    gauge = 14 + 2 * random.nextInt(6);
    length = 5 + 55 * random.nextDouble();
    hertz = random.nextBoolean() ? 60 : 50;
    celsius = 10 + 25 * random.nextDouble();
    runOhms = length * Gauge.awg(gauge).ohmsPerMetre(celsius);
    List<Integer> all = new ArrayList<>(IntStream.range(0, 16).boxed().toList());
    Collections.shuffle(all, random);
    ports.addAll(all.subList(0, conductors));
    Collections.shuffle(all, random);
    all.subList(0, conductors).forEach(p -> far.add(p + 1));
    add(draw);
  }

  private void add(Draw kind) {
    switch (kind) {
      case HEALTHY -> {}
      case OPEN -> open(fresh(), between(0.02, 0.98));
      case JOINT -> joint(fresh());
      case TOUCH -> bridge(fresh(), fresh(), random.nextDouble(), decades(0.02, 100));
      case LEAK -> bridge(fresh(), fresh(), random.nextDouble(), decades(1500, 1e6));
      case METAL_TOUCH -> bridge(fresh(), Ports.METAL, random.nextDouble(), decades(0.02, 100));
      case METAL_LEAK -> bridge(fresh(), Ports.METAL, random.nextDouble(), decades(1500, 1e6));
      case BROKEN_TOUCHING_NEAR -> {
        int port = fresh();
        double at = between(0.05, 0.98);
        open(port, at);
        bridge(port, fresh(), at * random.nextDouble(), decades(0.02, 100));
      }
      case BROKEN_TOUCHING_FAR -> {
        int port = fresh();
        double at = between(0.02, 0.95);
        open(port, at);
        bridge(port, fresh(), at + (1 - at) * random.nextDouble(), decades(0.02, 100));
      }
      case TWO -> {
        Draw[] kinds = {Draw.OPEN, Draw.JOINT, Draw.TOUCH, Draw.LEAK, Draw.METAL_TOUCH};
        add(kinds[random.nextInt(kinds.length)]);
        // One in four shares a conductor with the first, where that hides neither.
        if (random.nextInt(4) == 0 && truth.get(0).fault().kind() == Fault.Kind.BRIDGE) {
          int shared = truth.get(0).fault().ports().get(0);
          if (random.nextBoolean()) {
            joint(shared);
          } else {
            bridge(shared, fresh(), random.nextDouble(), decades(0.02, 100));
          }
        } else {
          add(kinds[random.nextInt(kinds.length)]);
        }
      }
    }
  }

  /** A conductor without a fault so far. */
  private int fresh() {
    List<Integer> left = ports.stream().filter(p -> !used.contains(p)).toList();
    // Where few are left two faults share one.
    int port = (left.isEmpty() ? ports : left).get(random.nextInt(Math.max(1, left.size())));
    used.add(port);
    return port;
  }

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private double decades(double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  private void open(int port, double at) {
    opens.add(String.format(Locale.ROOT, "{conductor: P%d, at: %.4f}", port + 1, at));
    truth.add(new Drawn(new Fault(Fault.Kind.OPEN, List.of(port), List.of(), null, null), at, 0));
  }

  private void joint(int port) {
    double ohms = decades(Math.max(0.15, 0.06 * runOhms), 20);
    double at = random.nextInt(3) == 0 ? 0.001 : random.nextInt(2) == 0 ? 0.999 : between(0, 1);
    joints.add(
        String.format(Locale.ROOT, "{conductor: P%d, at: %.4f, ohm: %.4f}", port + 1, at, ohms));
    truth.add(
        new Drawn(new Fault(Fault.Kind.JOINT, List.of(port), List.of(), null, null), at, ohms));
  }

  private void bridge(int a, int b, double at, double ohms) {
    bridges.add(
        String.format(
            Locale.ROOT,
            "{between: [P%d, %s], at: %.4f, ohm: %.4f}",
            a + 1,
            b == Ports.METAL ? "M" : "P" + (b + 1),
            at,
            ohms));
    truth.add(
        new Drawn(
            new Fault(Fault.Kind.BRIDGE, List.of(a), List.of(b), null, Quantity.ohms(ohms, 0)),
            at,
            ohms));
  }

  List<Fault> faults() {
    return truth.stream().map(Drawn::fault).toList();
  }

  String yaml() {
    StringJoiner lines = new StringJoiner("\n", "", "\n");
    lines.add("bellwire-bench: 1");
    lines.add("seed: " + seed);
    lines.add("cable:");
    lines.add("  gauge: " + gauge + " AWG");
    lines.add(String.format(Locale.ROOT, "  length: %.2f m", length));
    lines.add(String.format(Locale.ROOT, "  temperature: %.1f C", celsius));
    lines.add("  conductors:");
    for (int i = 0; i < conductors; i++) {
      lines.add(
          "    - {port: P%d, colour: c%d, far: %d}".formatted(ports.get(i) + 1, i, far.get(i)));
    }
    lines.add("joints: [" + String.join(", ", joints) + "]");
    lines.add("opens: [" + String.join(", ", opens) + "]");
    lines.add("bridges: [" + String.join(", ", bridges) + "]");
    lines.add(
        "far-end: [{from: 0 s, plug: open}, {from: 40 s, plug: coded}, {from: 75 s, plug: tie}]");
    lines.add("surroundings: {ambient: 22 C, hum: 5 mV " + hertz + " Hz}");
    lines.add("spread: {resistance: 0.5 %, capacitance: 2 %}");
    return lines.toString();
  }

  @Override
  public String toString() {
    return "seed="
        + seed
        + " draw="
        + draw
        + String.format(Locale.ROOT, " n=%d %.1f m %.2f ohm ", conductors, length, runOhms)
        + ports.stream().map(p -> Ports.name(p)).collect(Collectors.joining(" "))
        + " joints="
        + joints
        + " opens="
        + opens
        + " bridges="
        + bridges;
  }
}
