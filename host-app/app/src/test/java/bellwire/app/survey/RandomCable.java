package bellwire.app.survey;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.StringJoiner;

/**
 * Draws bench files: 2 to 16 conductors, 14 to 24 AWG, 2 to 60 m, in random order, with the faults
 * asked for.
 */
final class RandomCable {
  /** What is wrong with the cable. */
  enum Fault {
    NONE,
    JOINT,
    OPEN,
    SHORT,
    BRIDGE,
    LEAK,
    TWO
  }

  final long seed;
  final Fault fault;
  final int conductors;
  final List<Integer> far = new ArrayList<>();
  final List<Integer> ports = new ArrayList<>();
  final List<String> joints = new ArrayList<>();
  final List<String> opens = new ArrayList<>();
  final List<String> bridges = new ArrayList<>();
  private final Random random;
  private final int gauge;
  private final double length;
  private final int hertz;

  RandomCable(long seed, Fault fault, int conductors) {
    this.seed = seed;
    this.fault = fault;
    this.conductors = conductors;
    random = new Random(seed * 7919 + 17);
    gauge = 14 + 2 * random.nextInt(6);
    length = 2 + 58 * random.nextDouble();
    hertz = random.nextBoolean() ? 60 : 50;
    List<Integer> all = new ArrayList<>();
    for (int i = 0; i < 16; i++) {
      all.add(i);
    }
    Collections.shuffle(all, random);
    ports.addAll(all.subList(0, conductors));
    Collections.shuffle(all, random);
    all.subList(0, conductors).forEach(p -> far.add(p + 1));
    draw(fault);
  }

  RandomCable(long seed, Fault fault) {
    this(seed, fault, 2 + new Random(seed * 31 + 7).nextInt(15));
  }

  private void draw(Fault kind) {
    switch (kind) {
      case NONE -> {}
      case JOINT ->
          joints.add(
              onOne(
                  String.format(
                      Locale.ROOT, ", ohm: %.3f", Math.pow(10, -0.6 + 2.6 * random.nextDouble()))));
      case OPEN -> opens.add(onOne(""));
      case SHORT -> bridges.add(between(100 * Math.pow(random.nextDouble(), 3)));
      case BRIDGE -> bridges.add(between(Math.pow(10, 2 + 2 * random.nextDouble())));
      case LEAK -> bridges.add(between(Math.pow(10, 4 + 3.7 * random.nextDouble())));
      case TWO -> {
        Fault[] kinds = {Fault.JOINT, Fault.OPEN, Fault.SHORT, Fault.BRIDGE, Fault.LEAK};
        draw(kinds[random.nextInt(kinds.length)]);
        draw(kinds[random.nextInt(kinds.length)]);
      }
    }
  }

  private String onOne(String rest) {
    int port = ports.get(random.nextInt(conductors));
    return String.format(
        Locale.ROOT,
        "{conductor: P%d, at: %.3f%s}",
        port + 1,
        0.02 + 0.96 * random.nextDouble(),
        rest);
  }

  private String between(double ohms) {
    int a = random.nextInt(conductors);
    int b = (a + 1 + random.nextInt(conductors - 1)) % conductors;
    String other = random.nextInt(6) == 0 ? "M" : "P" + (ports.get(b) + 1);
    return String.format(
        Locale.ROOT,
        "{between: [P%d, %s], at: %.3f, ohm: %.4f}",
        ports.get(a) + 1,
        other,
        random.nextDouble(),
        ohms);
  }

  /** The bench file: open, coded from {@code codedSeconds} on, tie from {@code tieSeconds} on. */
  String yaml(double codedSeconds, double tieSeconds) {
    StringJoiner lines = new StringJoiner("\n", "", "\n");
    lines.add("bellwire-bench: 1");
    lines.add("seed: " + seed);
    lines.add("cable:");
    lines.add("  gauge: " + gauge + " AWG");
    lines.add(String.format(Locale.ROOT, "  length: %.2f m", length));
    lines.add(String.format(Locale.ROOT, "  temperature: %.1f C", 10 + 25 * random.nextDouble()));
    lines.add("  conductors:");
    for (int i = 0; i < conductors; i++) {
      lines.add(
          String.format(
              Locale.ROOT,
              "    - {port: P%d, colour: c%d, far: %d}",
              ports.get(i) + 1,
              i,
              far.get(i)));
    }
    lines.add("joints: [" + String.join(", ", joints) + "]");
    lines.add("opens: [" + String.join(", ", opens) + "]");
    lines.add("bridges: [" + String.join(", ", bridges) + "]");
    lines.add(
        String.format(
            Locale.ROOT,
            "far-end: [{from: 0 s, plug: open}, {from: %.1f s, plug: coded}, {from: %.1f s, plug: tie}]",
            codedSeconds,
            tieSeconds));
    lines.add("surroundings: {ambient: 22 C, hum: 5 mV " + hertz + " Hz}");
    lines.add("board: {noise: 1.0}");
    return lines.toString();
  }

  @Override
  public String toString() {
    return "seed="
        + seed
        + " fault="
        + fault
        + " conductors="
        + conductors
        + " joints="
        + joints
        + " opens="
        + opens
        + " bridges="
        + bridges;
  }
}
