package bellwire.simbench.file;

import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads the faults that come and go, and the joints that wander. */
final class IntermittentReader {
  /** One bit each in a word of those that are there. */
  private static final int MAX_ITEMS = 60;

  private static final double MAX_PER_HOUR = 1e6;
  private static final double DAY_SECONDS = 86_400;
  private static final double MAX_SECONDS = 1e6;
  private static final double LEAST_SECONDS = 1e-6;
  private static final double MOST_SECONDS = 60;
  private static final Pattern RANGE = Pattern.compile("(.+?)\\s*\\.\\.\\s*(.+)");
  private static final List<String> KINDS = List.of("opening", "touch", "wander");
  private static final List<String> STATISTICS =
      List.of("poisson", "bursts", "cycle", "temperature", "vibration");

  private final BenchReader bench;
  private final List<Intermittent> intermittents = new ArrayList<>();
  private final List<Wander> wanders = new ArrayList<>();

  /**
   * A reader that knows the conductors already read.
   *
   * @param bench checks ports against the cable
   */
  IntermittentReader(BenchReader bench) {
    this.bench = bench;
  }

  List<Intermittent> intermittents() {
    return intermittents;
  }

  List<Wander> wanders() {
    return wanders;
  }

  void read(Section root) throws FileException {
    for (Section s : root.sections("intermittent", MAX_ITEMS)) {
      String kind =
          only(
              s,
              KINDS,
              "begin it with one of opening, touch, wander, like '{opening: P3, at: 0, poisson:"
                  + " {per-hour: 6}, lasting: 2 ms}'");
      if (kind.equals("wander")) {
        wanders.add(wander(s));
      } else {
        intermittents.add(intermittent(s, kind));
      }
      s.done();
    }
  }

  private Intermittent intermittent(Section s, String kind) throws FileException {
    boolean touch = kind.equals("touch");
    int[] ports = touch ? s.portPair("touch") : new int[] {bench.conductor(s, "opening"), -1};
    for (int port : ports) {
      if (port >= 0) {
        bench.wired(s, kind, port);
      }
    }
    boolean metalFirst = ports[0] > ports[1] && touch;
    String statistic = only(s, STATISTICS, "say when it happens, like 'poisson: {per-hour: 6}'");
    Intermittent.When when = when(s, statistic);
    long[] lasting = lasting(s);
    long from = s.nanos("from", 0);
    return new Intermittent(
        touch ? Intermittent.Kind.TOUCH : Intermittent.Kind.OPENING,
        metalFirst ? ports[1] : ports[0],
        metalFirst ? ports[0] : ports[1],
        BenchReader.at(s),
        when,
        lasting[0],
        lasting[1],
        from,
        SurroundingsReader.until(s, from));
  }

  private static String only(Section s, List<String> keys, String remedy) throws FileException {
    String found = "";
    for (String key : keys) {
      if (s.has(key)) {
        if (!found.isEmpty()) {
          throw s.problemAt(
              key,
              "two of one sort in one entry of intermittent: key=" + found + " key=" + key,
              "give each its own entry");
        }
        found = key;
      }
    }
    if (found.isEmpty()) {
      throw s.problemHere(
          "an entry of intermittent without any of " + String.join(", ", keys), remedy);
    }
    return found;
  }

  private static Intermittent.When when(Section entry, String statistic) throws FileException {
    Section s = entry.required(statistic);
    Intermittent.When when =
        switch (statistic) {
          case "poisson" -> new Intermittent.Poisson(perHour(s));
          case "bursts" ->
              new Intermittent.Bursts(
                  perHour(s), s.number("events", 1, 10_000), nanos(s, "gap", LEAST_SECONDS));
          case "cycle" -> cycle(s);
          case "temperature" ->
              new Intermittent.Temperature(
                  perHour(s),
                  s.number("per-kelvin", -2, 2),
                  s.quantity("swing", Dimension.TEMPERATURE_DIFFERENCE, 0, 60),
                  s.has("period") ? nanos(s, "period", 1) : Math.round(DAY_SECONDS * 1e9),
                  s.nanos("warmest", 0));
          default -> vibration(s);
        };
    s.done();
    return when;
  }

  private static Intermittent.When cycle(Section s) throws FileException {
    long period = nanos(s, "period", 1e-3);
    long jitter = s.nanos("jitter", 0);
    if (jitter > period / 2) {
      throw s.problemAt(
          "jitter",
          "more than half a period in cycle: jitter=" + s.text("jitter"),
          "keep it below that");
    }
    return new Intermittent.Cycle(period, s.nanos("phase", 0), jitter, s.number("chance", 0, 1, 1));
  }

  private static Intermittent.When vibration(Section s) throws FileException {
    long period = nanos(s, "period", 1);
    long running = nanos(s, "running", 1e-3);
    if (running > period) {
      throw s.problemAt(
          "running",
          "longer than its period in vibration: running=" + s.text("running"),
          "keep it within that");
    }
    return new Intermittent.Vibration(
        period,
        s.nanos("phase", 0),
        running,
        s.quantity("hz", Dimension.FREQUENCY, 0.1, 1000),
        s.number("chance", 1e-6, 1));
  }

  private Wander wander(Section s) throws FileException {
    int port = bench.conductor(s, "wander");
    double walk = s.quantity("walk", Dimension.RESISTANCE, 0, 100, 0);
    double ramp = s.quantity("ramp", Dimension.RESISTANCE, 0, 1000, 0);
    if (walk == 0 && ramp == 0) {
      throw s.problemHere(
          "a wander that stays where it is: walk=0 ramp=0",
          "give it 'walk: 2 mohm' (of a step) or 'ramp: 50 mohm' (of an hour)");
    }
    long from = s.nanos("from", 0);
    return new Wander(
        port,
        BenchReader.at(s),
        s.quantity("ohm", Dimension.RESISTANCE, 0, 1000, 0),
        walk,
        ramp,
        s.has("every") ? nanos(s, "every", 1) : 60_000_000_000L,
        from,
        SurroundingsReader.until(s, from));
  }

  private static long[] lasting(Section s) throws FileException {
    String text = s.text("lasting");
    Matcher range = RANGE.matcher(text);
    if (!range.matches()) {
      long fixed = nanos(s, text, LEAST_SECONDS, MOST_SECONDS);
      return new long[] {fixed, fixed};
    }
    long shortest = nanos(s, range.group(1), LEAST_SECONDS, MOST_SECONDS);
    return new long[] {shortest, nanos(s, range.group(2), shortest * 1e-9, MOST_SECONDS)};
  }

  private static long nanos(Section s, String text, double least, double most)
      throws FileException {
    return Math.round(
        1e9 * s.quantity("lasting", text, s.lineAt("lasting"), Dimension.TIME, least, most));
  }

  private static long nanos(Section s, String key, double leastSeconds) throws FileException {
    return Math.round(1e9 * s.quantity(key, Dimension.TIME, leastSeconds, MAX_SECONDS));
  }

  private static double perHour(Section s) throws FileException {
    return s.number("per-hour", 1e-4, MAX_PER_HOUR);
  }
}
