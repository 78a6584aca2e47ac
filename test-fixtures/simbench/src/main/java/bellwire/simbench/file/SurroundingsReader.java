package bellwire.simbench.file;

import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads what surrounds the cable: hum, mains wiring, foreign and induced voltages. */
final class SurroundingsReader {
  private static final double MIN_SOURCE_OHMS = 1e-3;
  private static final double MAX_MAINS_FARADS = 1e-8;
  private static final Pattern HUM = Pattern.compile("(\\S+)\\s+(\\S+)\\s+(\\S+)\\s+(\\S+)");

  /** Each conductor's coupling to mains wiring where the file says nothing. */
  private static final double MAINS_FARADS_EACH = 1e-12;

  /** The most a whole cable couples then: its conductors shade one another. */
  private static final double MAINS_FARADS_CABLE = 6e-12;

  private final BenchReader bench;
  private final Bench.Cable cable;

  /**
   * A reader that knows the conductors already read.
   *
   * @param bench checks ports against the cable
   */
  SurroundingsReader(BenchReader bench, Bench.Cable cable) {
    this.bench = bench;
    this.cable = cable;
  }

  Bench.Surroundings read(Section root) throws FileException {
    int n = cable.conductors().size();
    double ambient = 20;
    double humVolts = 0;
    double humHertz = 60;
    Bench.Mains mains =
        new Bench.Mains(120, 60, Math.min(MAINS_FARADS_EACH, MAINS_FARADS_CABLE / n));
    List<Bench.Foreign> foreign = new ArrayList<>();
    List<Bench.Induced> induced = new ArrayList<>();
    if (root.section("surroundings").isPresent()) {
      Section s = root.required("surroundings");
      ambient = BenchReader.temperature(s, "ambient", ambient);
      if (s.has("hum")) {
        String text = s.text("hum");
        Matcher hum = HUM.matcher(text);
        if (!hum.matches()) {
          throw s.problemAt(
              "hum", "no hum in surroundings: hum=" + text, "write it like '5 mV 60 Hz'");
        }
        int line = s.lineAt("hum");
        humVolts =
            s.quantity("hum", hum.group(1) + " " + hum.group(2), line, Dimension.VOLTAGE, 0, 10);
        humHertz =
            s.quantity("hum", hum.group(3) + " " + hum.group(4), line, Dimension.FREQUENCY, 1, 1e5);
      }
      mains = mains(s, new Bench.Mains(mains.volts(), humHertz, mains.faradsEach()));
      for (Section f : s.sections("foreign", 100)) {
        foreign.add(foreign(f));
      }
      for (Section i : s.sections("induced", 100)) {
        induced.add(induced(i));
      }
      s.done();
    }
    return new Bench.Surroundings(ambient, humVolts, humHertz, mains, foreign, induced);
  }

  private static Bench.Mains mains(Section surroundings, Bench.Mains absent) throws FileException {
    if (surroundings.section("mains").isEmpty()) {
      return absent;
    }
    Section s = surroundings.required("mains");
    Bench.Mains mains =
        new Bench.Mains(
            s.quantity("volts", Dimension.VOLTAGE, 0, 1000, absent.volts()),
            s.quantity("hz", Dimension.FREQUENCY, 1, 1e5, absent.hertz()),
            s.quantity(
                "capacitance", Dimension.CAPACITANCE, 0, MAX_MAINS_FARADS, absent.faradsEach()));
    s.done();
    return mains;
  }

  private static Bench.Foreign foreign(Section s) throws FileException {
    int[] pair = s.portPair("between");
    long from = s.nanos("from", 0);
    Bench.Foreign foreign =
        new Bench.Foreign(
            pair[0],
            pair[1],
            s.quantity("volts", Dimension.VOLTAGE, -1000, 1000),
            s.quantity("hz", Dimension.FREQUENCY, 0, 1e5, 0),
            s.quantity("ohm", Dimension.RESISTANCE, MIN_SOURCE_OHMS, BenchReader.MAX_OHMS, 2),
            from,
            until(s, from),
            s.has("phase")
                ? OptionalDouble.of(s.number("phase", -360, 360))
                : OptionalDouble.empty());
    s.done();
    return foreign;
  }

  private Bench.Induced induced(Section s) throws FileException {
    long from = s.nanos("from", 0);
    Bench.Induced induced =
        new Bench.Induced(
            bench.conductor(s, "on"),
            s.quantity("volts", Dimension.VOLTAGE, 0, 1000),
            s.quantity("hz", Dimension.FREQUENCY, 1, 1e5),
            s.quantity("capacitance", Dimension.CAPACITANCE, 0, MAX_MAINS_FARADS),
            from,
            until(s, from));
    s.done();
    return induced;
  }

  static long until(Section s, long from) throws FileException {
    long until = s.nanos("until", Long.MAX_VALUE);
    if (until <= from) {
      throw s.problemAt(
          "until", "times out of order: until=" + s.text("until"), "end it after it begins");
    }
    return until;
  }
}
