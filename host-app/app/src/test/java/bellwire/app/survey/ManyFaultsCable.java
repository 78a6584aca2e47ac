package bellwire.app.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.StringJoiner;
import java.util.stream.IntStream;

/**
 * Draws bench files of 2 to 16 conductors with one to six faults at once, anywhere and on top of
 * one another, loose contacts and fingers among them, and one plug or both.
 */
final class ManyFaultsCable {
  /** One step between the arms of the coded plug, which a joint may imitate. */
  private static final double PLUG_STEP_OHMS = 40;

  final long seed;
  final int conductors;
  final Set<FarEndKind> plugs;
  final boolean metalClipped;

  /** What was drawn of breaks, joints and bridges below 10 Mohm; contacts are not among them. */
  final List<Fault> truth = new ArrayList<>();

  private final Random random;
  private final int gauge;
  private final double length;
  private final double celsius;
  private final List<Integer> ports = new ArrayList<>();
  private final List<Integer> far = new ArrayList<>();
  private final List<String> joints = new ArrayList<>();
  private final List<String> opens = new ArrayList<>();
  private final List<String> bridges = new ArrayList<>();
  private final List<String> contacts = new ArrayList<>();
  private String fingers = "";

  ManyFaultsCable(long seed) {
    this.seed = seed;
    random = new Random(seed * 7829 + 11);
    conductors =
        random.nextInt(12) == 0
            ? 2
            : random.nextBoolean() ? 3 + random.nextInt(5) : 3 + random.nextInt(14);
    gauge = 14 + 2 * random.nextInt(6);
    length = 2 + 58 * random.nextDouble();
    celsius = 10 + 25 * random.nextDouble();
    List<Integer> all = new ArrayList<>(IntStream.range(0, 16).boxed().toList());
    Collections.shuffle(all, random);
    ports.addAll(all.subList(0, conductors));
    Collections.shuffle(all, random);
    all.subList(0, conductors).forEach(p -> far.add(p + 1));
    plugs =
        switch (random.nextInt(6)) {
          case 0 -> EnumSet.of(FarEndKind.CODED);
          case 1 -> EnumSet.of(FarEndKind.TIE);
          default -> EnumSet.of(FarEndKind.CODED, FarEndKind.TIE);
        };
    metalClipped = random.nextInt(5) != 0;
    int faults = 1 + random.nextInt(6);
    for (int f = 0; f < faults; f++) {
      draw();
    }
  }

  private void draw() {
    switch (random.nextInt(10)) {
      case 0, 1 -> open(any(), random.nextDouble());
      case 2 -> joint(any(), decades(0.1, 100));
      case 3 -> joint(any(), PLUG_STEP_OHMS * (0.9 + 0.2 * random.nextDouble()));
      case 4, 5 -> bridge(any(), any(), decades(0.01, 100));
      case 6 -> bridge(any(), any(), decades(100, 2e4));
      case 7 -> bridge(any(), any(), decades(2e4, 1e7));
      case 8 -> {
        int port = any();
        open(port, random.nextDouble());
        bridge(port, any(), decades(0.01, 100));
      }
      default -> contact();
    }
  }

  private void contact() {
    if (random.nextInt(3) == 0) {
      fingers =
          String.format(
              Locale.ROOT,
              ", fingers: {positions: [%d, %d], ohm: %.0f}",
              far.get(0),
              far.get(1),
              decades(5e4, 2e6));
      return;
    }
    contacts.add(
        String.format(
            Locale.ROOT,
            "{conductor: P%d, end: %s, ohm: %.3f, seating: 1}",
            any() + 1,
            random.nextBoolean() ? "near" : "far",
            decades(0.05, 1e6)));
  }

  private int any() {
    return ports.get(random.nextInt(conductors));
  }

  private double decades(double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  private void open(int port, double at) {
    opens.add(String.format(Locale.ROOT, "{conductor: P%d, at: %.4f}", port + 1, at));
    truth.add(new Fault(Fault.Kind.OPEN, List.of(port), List.of(), null, null));
  }

  private void joint(int port, double ohms) {
    joints.add(
        String.format(
            Locale.ROOT,
            "{conductor: P%d, at: %.4f, ohm: %.4f}",
            port + 1,
            random.nextDouble(),
            ohms));
    truth.add(new Fault(Fault.Kind.JOINT, List.of(port), List.of(), null, Quantity.ohms(ohms, 0)));
  }

  private void bridge(int a, int b, double ohms) {
    int other = a == b || random.nextInt(6) == 0 ? Ports.METAL : b;
    bridges.add(
        String.format(
            Locale.ROOT,
            "{between: [P%d, %s], at: %.4f, ohm: %.4f}",
            a + 1,
            Ports.name(other),
            random.nextDouble(),
            ohms));
    truth.add(
        new Fault(Fault.Kind.BRIDGE, List.of(a), List.of(other), null, Quantity.ohms(ohms, 0)));
  }

  double runOhms() {
    return length * Gauge.awg(gauge).ohmsPerMetre(celsius);
  }

  boolean contactsForced() {
    return !contacts.isEmpty() || !fingers.isEmpty();
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
    lines.add("contacts: [" + String.join(", ", contacts) + "]");
    lines.add("far-end: [" + farEnd() + "]");
    lines.add("surroundings: {ambient: 22 C, hum: 5 mV " + (seed % 2 == 0 ? 60 : 50) + " Hz}");
    lines.add(
        "metal: {clipped: " + metalClipped + ", to: " + (seed % 5 < 2 ? "drain" : "earth") + "}");
    return lines.toString();
  }

  private String farEnd() {
    String coded = plugs.contains(FarEndKind.CODED) ? "coded" : "tie";
    StringJoiner states = new StringJoiner(", ");
    states.add("{from: 0 s, plug: open}");
    if (!fingers.isEmpty()) {
      states.add("{from: 34 s, plug: open" + fingers + "}");
    }
    states.add("{from: 40 s, plug: " + coded + "}");
    if (plugs.size() > 1) {
      states.add("{from: 75 s, plug: tie}");
    }
    return states.toString();
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "seed=%d n=%d %.2f ohm plugs=%s clipped=%s joints=%s opens=%s bridges=%s contacts=%s%s",
        seed,
        conductors,
        runOhms(),
        plugs,
        metalClipped,
        joints,
        opens,
        bridges,
        contacts,
        fingers);
  }
}
