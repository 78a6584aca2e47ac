package bellwire.simbench.file;

import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * Reads what is attached to the cable: coils, secondaries, capacitors, diodes, batteries, copper.
 */
final class AttachedReader {
  private static final int MAX_ATTACHED = 100;
  private static final double MIN_OHMS = 1e-4;
  private static final String KINDS =
      "begin it with one of coil, secondary, capacitor, diode, battery, cable, jumper, like"
          + " '{coil: [P3, P1], ohm: 16, henry: 0.25 H}'";

  private final BenchReader bench;

  /**
   * A reader that knows the conductors already read.
   *
   * @param bench checks ports against the cable
   */
  AttachedReader(BenchReader bench) {
    this.bench = bench;
  }

  List<Bench.Attached> read(Section root) throws FileException {
    List<Bench.Attached> attached = new ArrayList<>();
    for (Section s : root.sections("attached", MAX_ATTACHED)) {
      attached.add(attached(s));
      s.done();
    }
    return attached;
  }

  private Bench.Attached attached(Section s) throws FileException {
    Bench.AttachedKind kind = kind(s);
    String key = key(kind);
    boolean cable = kind == Bench.AttachedKind.CABLE;
    boolean winding = kind == Bench.AttachedKind.COIL || kind == Bench.AttachedKind.SECONDARY;
    boolean cell = kind == Bench.AttachedKind.BATTERY;
    List<Integer> ports =
        cable ? s.ports(key, 16) : Arrays.stream(s.portPair(key)).boxed().toList();
    for (int port : ports) {
      bench.wired(s, key, port);
    }
    double ohms =
        switch (kind) {
          case COIL, SECONDARY -> s.quantity("ohm", Dimension.RESISTANCE, MIN_OHMS, 1e6);
          case JUMPER -> s.quantity("ohm", Dimension.RESISTANCE, 0, BenchReader.MAX_OHMS, 0.02);
          case CAPACITOR, CABLE -> s.quantity("ohm", Dimension.RESISTANCE, MIN_OHMS, 1e6, 0.01);
          case DIODE -> s.quantity("ohm", Dimension.RESISTANCE, 0.1, 1e6, 20);
          case BATTERY -> s.quantity("ohm", Dimension.RESISTANCE, 1e-3, 1e6, 0.5);
        };
    double henries = winding ? s.quantity("henry", Dimension.INDUCTANCE, 1e-6, 100) : 0;
    double core =
        winding
            ? s.quantity("core", Dimension.RESISTANCE, 1, 1e9, Double.POSITIVE_INFINITY)
            : Double.POSITIVE_INFINITY;
    double farads =
        kind == Bench.AttachedKind.CAPACITOR
            ? s.quantity("farad", Dimension.CAPACITANCE, 1e-12, 0.1)
            : 0;
    double volts =
        cell
            ? s.quantity("volts", Dimension.VOLTAGE, -60, 60)
            : kind == Bench.AttachedKind.DIODE
                ? s.quantity("volts", Dimension.VOLTAGE, 0, 10, 0.6)
                : 0;
    double length = cable ? s.quantity("length", Dimension.LENGTH, 0.01, 10_000) : 0;
    long from = s.nanos("from", 0);
    long until = SurroundingsReader.until(s, from);
    return new Bench.Attached(
        kind, ports, at(s), ohms, henries, core, farads, volts, length, from, until);
  }

  private static Bench.AttachedKind kind(Section s) throws FileException {
    Bench.AttachedKind found = null;
    for (Bench.AttachedKind kind : Bench.AttachedKind.values()) {
      if (s.has(key(kind))) {
        if (found != null) {
          throw s.problemAt(
              key(kind),
              "two things in one entry of attached: key=" + key(kind),
              "give each its own entry");
        }
        found = kind;
      }
    }
    if (found == null) {
      throw s.problemHere("an entry of attached that names nothing", KINDS);
    }
    return found;
  }

  private static String key(Bench.AttachedKind kind) {
    return kind.name().toLowerCase(Locale.ROOT);
  }

  /** Empty for the equipment's terminals. */
  private static OptionalDouble at(Section s) throws FileException {
    if (!s.has("at") || s.text("at").equals("near")) {
      return OptionalDouble.empty();
    }
    String text = s.text("at");
    if (text.equals("far")) {
      return OptionalDouble.of(1);
    }
    if (!text.matches("[-+.\\d].*")) {
      throw s.problemAt(
          "at",
          "no place in attached: at=" + text,
          "use near (the equipment's terminals), far, or a fraction of the length like 0.3");
    }
    return OptionalDouble.of(BenchReader.at(s));
  }
}
