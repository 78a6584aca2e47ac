package bellwire.simbench.file;

import bellwire.board.BoardDescription;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.SequenceNode;

/** Turns a bench file's sections into records, with the defaults and the checks across keys. */
final class BenchReader {
  private static final int METAL = 16;
  private static final int MAX_ITEMS = 1000;
  static final double MAX_OHMS = 1e12;
  private static final Pattern TEMPERATURE = Pattern.compile("([-+]?\\d+\\.?\\d*)\\s*([CF])");
  private static final Pattern RANGE = Pattern.compile("(\\S+?)\\s*\\.\\.\\s*(\\S+)\\s+(\\S+)");

  private final Section root;
  private final Set<Integer> ports = new HashSet<>();
  private final Set<Integer> fars = new HashSet<>();

  BenchReader(Section root) {
    this.root = root;
  }

  Bench read() throws FileException {
    long seed = root.seed("seed");
    Optional<Bench.Control> control = ControlReader.read(root);
    boolean bare = control.isPresent() && !root.has("cable");
    Bench.Cable cable = bare ? shortCable() : cable(root.required("cable"));
    List<Bench.Joint> joints = new ArrayList<>();
    for (Section s : root.sections("joints", MAX_ITEMS)) {
      joints.add(
          new Bench.Joint(
              conductor(s, "conductor"),
              at(s),
              s.quantity("ohm", Dimension.RESISTANCE, 0, MAX_OHMS)));
      s.done();
    }
    List<Bench.Open> opens = new ArrayList<>();
    for (Section s : root.sections("opens", MAX_ITEMS)) {
      opens.add(new Bench.Open(conductor(s, "conductor"), at(s)));
      s.done();
    }
    List<Bench.Bridge> bridges = new ArrayList<>();
    for (Section s : root.sections("bridges", MAX_ITEMS)) {
      int[] pair = s.portPair("between");
      for (int port : pair) {
        wired(s, "between", port);
      }
      bridges.add(
          new Bench.Bridge(
              pair[0], pair[1], at(s), s.quantity("ohm", Dimension.RESISTANCE, 0, MAX_OHMS)));
      s.done();
    }
    List<Bench.FarEnd> farEnd = farEnds();
    List<Long> seatings = seatings();
    List<Bench.ForcedContact> contacts = contacts();
    List<Bench.Attached> attached = new AttachedReader(this).read(root);
    IntermittentReader coming = new IntermittentReader(this);
    coming.read(root);
    Bench.Spread spread = spread();
    Bench.Plug plug = plug();
    Bench.Surroundings surroundings = new SurroundingsReader(this, cable).read(root);
    Bench.Board board = board();
    Bench.Metal metal = metal();
    root.done();
    return new Bench(
        seed,
        cable,
        joints,
        opens,
        bridges,
        farEnd,
        seatings,
        contacts,
        attached,
        coming.intermittents(),
        coming.wanders(),
        spread,
        plug,
        surroundings,
        board,
        metal,
        control);
  }

  /** What hangs on the ports where a file is about its control alone. */
  private Bench.Cable shortCable() {
    ports.add(0);
    fars.add(1);
    Bench.Conductor conductor = new Bench.Conductor(0, "red", 1);
    double area = Gauge.awgSquareMillimetres(18);
    return new Bench.Cable("18 AWG", area, 1, 20, 66e-12, 5e-12, List.of(conductor));
  }

  private Bench.Cable cable(Section s) throws FileException {
    String gauge = s.text("gauge");
    OptionalDouble area = Gauge.squareMillimetres(gauge);
    if (area.isEmpty()) {
      throw s.problemAt(
          "gauge",
          "no such gauge: gauge=" + gauge,
          "use 0000 to 40 AWG like '18 AWG', or an area like '0.75 mm2'");
    }
    double length = s.quantity("length", Dimension.LENGTH, 0.01, 10_000);
    double celsius = temperature(s, "temperature", 20);
    double farads = s.quantity("capacitance", Dimension.CAPACITANCE_PER_LENGTH, 0, 1e-8, 66e-12);
    double toMetal = s.quantity("to-metal", Dimension.CAPACITANCE_PER_LENGTH, 0, 1e-8, 5e-12);
    List<Bench.Conductor> conductors = new ArrayList<>();
    for (Section c : s.sections("conductors", METAL)) {
      int port = c.port("port");
      if (port == METAL) {
        throw c.problemAt("port", "M takes no conductor: port=M", "use P1 to P16");
      }
      if (!ports.add(port)) {
        throw c.problemAt(
            "port", "two conductors on one port: port=P" + (port + 1), "give each its own port");
      }
      int far = c.integer("far", 1, 16);
      if (!fars.add(far)) {
        throw c.problemAt(
            "far", "far position twice: far=" + far, "give each conductor its own position");
      }
      conductors.add(new Bench.Conductor(port, c.text("colour"), far));
      c.done();
    }
    if (conductors.isEmpty()) {
      throw s.problemAt(
          "conductors",
          "key missing in cable: key=conductors",
          "list them, like '- {port: P1, colour: red, far: 3}'");
    }
    s.done();
    return new Bench.Cable(gauge, area.getAsDouble(), length, celsius, farads, toMetal, conductors);
  }

  static double at(Section s) throws FileException {
    String text = s.text("at");
    return text.endsWith("%") ? s.quantity("at", Dimension.FRACTION, 0, 1) : s.number("at", 0, 1);
  }

  int conductor(Section s, String key) throws FileException {
    int port = s.port(key);
    if (port == METAL) {
      throw s.problemAt(
          key, "M is no conductor: " + key + "=M", "name a conductor by its port, P1 to P16");
    }
    wired(s, key, port);
    return port;
  }

  void wired(Section s, String key, int port) throws FileException {
    if (port != METAL && !ports.contains(port)) {
      throw s.problemAt(
          key,
          "no conductor on that port: " + key + "=P" + (port + 1),
          "name one of the cable's conductors");
    }
  }

  private List<Bench.FarEnd> farEnds() throws FileException {
    List<Bench.FarEnd> farEnds = new ArrayList<>();
    long last = -1;
    for (Section s : root.sections("far-end", MAX_ITEMS)) {
      long from = s.nanos("from");
      if (from <= last) {
        throw s.problemAt(
            "from",
            "times out of order in far-end: from=" + s.text("from"),
            "list them by rising time");
      }
      last = from;
      farEnds.add(farEnd(s, from));
      s.done();
    }
    return farEnds;
  }

  private Bench.FarEnd farEnd(Section s, long from) throws FileException {
    Bench.PlugKind plug = s.choice("plug", Bench.PlugKind.class);
    boolean list = s.isList("seated");
    List<Integer> seated = list ? s.positions("seated") : List.of();
    double fraction =
        s.has("seated") && !list ? s.number("seated", 0, 1) : list && seated.isEmpty() ? 0 : 1;
    List<Integer> fingers = List.of();
    double fingerOhms = 1;
    if (s.section("fingers").isPresent()) {
      Section f = s.required("fingers");
      fingers = f.positions("positions");
      fingerOhms = f.quantity("ohm", Dimension.RESISTANCE, 1, MAX_OHMS);
      f.done();
      landed(f, "positions", fingers);
    }
    List<List<Integer>> ties = new ArrayList<>();
    for (Node node : s.items("ties", METAL)) {
      if (!(node instanceof SequenceNode tie)) {
        throw s.problem(
            Section.lineOf(node),
            "no list in ties: ties=" + node.getTag(),
            "write it like '[[1, 2], [3, 4]]'");
      }
      ties.add(tie(s, tie));
    }
    return new Bench.FarEnd(from, plug, seated, fraction, fingers, fingerOhms, ties);
  }

  /** Far positions that are joined; metal as {@link Bench.FarEnd#METAL}. */
  private List<Integer> tie(Section s, SequenceNode tie) throws FileException {
    List<Node> conductors = tie.getValue().stream().filter(n -> !isMetal(n)).toList();
    List<Integer> positions = s.positions("ties", conductors);
    landed(s, "ties", positions);
    if (conductors.size() == tie.getValue().size()) {
      return positions;
    }
    if (conductors.size() + 1 < tie.getValue().size()) {
      throw s.problem(Section.lineOf(tie), "M twice in ties: ties=M", "name it once");
    }
    List<Integer> withMetal = new ArrayList<>(positions);
    withMetal.add(Bench.FarEnd.METAL);
    return withMetal;
  }

  private static boolean isMetal(Node node) {
    return node instanceof org.yaml.snakeyaml.nodes.ScalarNode scalar
        && scalar.getValue().equals("M");
  }

  private void landed(Section s, String key, List<Integer> positions) throws FileException {
    for (int position : positions) {
      if (!fars.contains(position)) {
        throw s.problemAt(
            key,
            "no conductor at that far position: " + key + "=" + position,
            "use the conductors' far positions");
      }
    }
  }

  private List<Long> seatings() throws FileException {
    List<Long> seatings = new ArrayList<>();
    for (Node node : root.items("near-seating", MAX_ITEMS)) {
      String text =
          node instanceof org.yaml.snakeyaml.nodes.ScalarNode scalar ? scalar.getValue() : "";
      int line = Section.lineOf(node);
      long nanos =
          Math.round(root.quantity("near-seating", text, line, Dimension.TIME, 0, 1e6) * 1e9);
      if (!seatings.isEmpty() && nanos <= seatings.get(seatings.size() - 1)) {
        throw root.problem(
            line, "times out of order: near-seating=" + text, "list them by rising time");
      }
      seatings.add(nanos);
    }
    return seatings;
  }

  private List<Bench.ForcedContact> contacts() throws FileException {
    List<Bench.ForcedContact> contacts = new ArrayList<>();
    for (Section s : root.sections("contacts", MAX_ITEMS)) {
      contacts.add(
          new Bench.ForcedContact(
              conductor(s, "conductor"),
              s.choice("end", Bench.End.class),
              s.quantity("ohm", Dimension.RESISTANCE, 0, MAX_OHMS),
              s.integer("seating", 1, MAX_ITEMS, 0)));
      s.done();
    }
    return contacts;
  }

  private Bench.Spread spread() throws FileException {
    double resistance = 0.005;
    double capacitance = 0.05;
    double low = 0.002;
    double high = 0.020;
    if (root.section("spread").isPresent()) {
      Section s = root.required("spread");
      resistance = s.quantity("resistance", Dimension.FRACTION, 0, 0.5, resistance);
      capacitance = s.quantity("capacitance", Dimension.FRACTION, 0, 0.5, capacitance);
      if (s.has("contact")) {
        String text = s.text("contact");
        Matcher range = RANGE.matcher(text);
        if (!range.matches()) {
          throw s.problemAt(
              "contact", "no range in spread: contact=" + text, "write it like '2..20 mohm'");
        }
        int line = s.lineAt("contact");
        low =
            s.quantity(
                "contact",
                range.group(1) + " " + range.group(3),
                line,
                Dimension.RESISTANCE,
                0,
                1e6);
        high =
            s.quantity(
                "contact",
                range.group(2) + " " + range.group(3),
                line,
                Dimension.RESISTANCE,
                low,
                1e6);
      }
      s.done();
    }
    return new Bench.Spread(resistance, capacitance, low, high);
  }

  private Bench.Plug plug() throws FileException {
    int number = 1;
    double tolerance = bellwire.board.CodedPlug.nominal().tolerance();
    double celsius = 20;
    if (root.section("plug").isPresent()) {
      Section s = root.required("plug");
      number = s.integer("number", 0, 1_000_000, number);
      tolerance = s.quantity("tolerance", Dimension.FRACTION, 0, 0.5, tolerance);
      celsius = temperature(s, "temperature", celsius);
      s.done();
    }
    return new Bench.Plug(number, tolerance, celsius);
  }

  private Bench.Board board() throws FileException {
    double noise = 1;
    OptionalDouble referenceError = OptionalDouble.empty();
    double leakage = BoardDescription.revisionA().value("switch-leakage-amps").tolerance();
    double drift = 0;
    double jitter = 0;
    if (root.section("board").isPresent()) {
      Section s = root.required("board");
      noise = s.number("noise", 0, 1000, noise);
      referenceError = s.optional("reference-error", Dimension.FRACTION, -0.1, 0.1);
      leakage = s.quantity("switch-leakage", Dimension.CURRENT, 0, 1e-6, leakage);
      drift = s.quantity("clock-drift", Dimension.FRACTION, -0.001, 0.001, drift);
      jitter = s.quantity("tick-jitter", Dimension.TIME, 0, 0.01, jitter);
      s.done();
    }
    return new Bench.Board(noise, referenceError, leakage, drift, Math.round(jitter * 1e9));
  }

  private Bench.Metal metal() throws FileException {
    if (root.section("metal").isEmpty()) {
      return new Bench.Metal(true, Bench.MetalKind.EARTH);
    }
    Section s = root.required("metal");
    boolean clipped = s.flag("clipped", true);
    Bench.MetalKind kind =
        s.has("to") ? s.choice("to", Bench.MetalKind.class) : Bench.MetalKind.EARTH;
    s.done();
    return new Bench.Metal(clipped, kind);
  }

  static double temperature(Section s, String key, double absent) throws FileException {
    if (!s.has(key)) {
      return absent;
    }
    String text = s.text(key);
    Matcher matcher = TEMPERATURE.matcher(text);
    if (!matcher.matches()) {
      throw s.problemAt(
          key, "no temperature: " + key + "=" + text, "write it like '22 C' or '72 F'");
    }
    double value = Double.parseDouble(matcher.group(1));
    double celsius = matcher.group(2).equals("F") ? (value - 32) / 1.8 : value;
    if (celsius < -60 || celsius > 150) {
      throw s.problemAt(
          key, String.format(Locale.ROOT, "out of bounds: %s=%s", key, text), "use -60 C to 150 C");
    }
    return celsius;
  }
}
