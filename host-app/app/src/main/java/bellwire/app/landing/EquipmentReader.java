package bellwire.app.landing;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.copper.Gauge;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Fuse;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Switch;
import bellwire.analysis.loop.Transformer;
import bellwire.analysis.loop.Wire;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import bellwire.yaml.Spelling;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Reads a description of equipment. */
final class EquipmentReader {
  private static final int MAX_TERMINALS = 24;
  private static final int MAX_ELEMENTS = 64;
  private static final String METAL = "metal";

  private final Section root;
  private final List<String> terminals;
  private final List<Element> elements = new ArrayList<>();
  private final Map<String, Integer> lines = new LinkedHashMap<>();
  private final Map<String, Integer> uses = new HashMap<>();

  EquipmentReader(Section root) throws FileException {
    this.root = root;
    terminals = ControlReader.terminals(root, MAX_TERMINALS);
  }

  Equipment read() throws FileException {
    String title = root.text("title");
    each("transformers", this::transformer);
    each("fuses", this::fuse);
    each("loads", this::load);
    each("switches", this::protective);
    each("contacts", this::contact);
    each("wires", this::wire);
    contactsHaveLoads();
    pointsMeet();
    Equipment equipment = new Equipment(title, terminals, elements, wanted());
    if (equipment.all(Transformer.class).isEmpty()) {
      throw root.problemHere("no transformer", "describe one under 'transformers'");
    }
    root.done();
    return equipment;
  }

  private interface ElementReader {
    Element read(String name, Section section) throws FileException;
  }

  private void each(String key, ElementReader reader) throws FileException {
    if (!root.has(key)) {
      return;
    }
    Section all = root.required(key);
    for (String name : all.keys()) {
      Section section = all.required(name);
      Element element = reader.read(name, section);
      section.done();
      if (lines.put(name, all.lineAt(name)) != null) {
        throw all.problemAt(name, "the name is taken: " + name, "give each part its own name");
      }
      if (element.a().equals(element.b())) {
        throw all.problemAt(name, "both its ends are the same: " + name, "name two points");
      }
      elements.add(element);
      if (elements.size() > MAX_ELEMENTS) {
        throw all.problemAt(name, "too many parts", "keep to " + MAX_ELEMENTS);
      }
    }
  }

  private Element transformer(String name, Section s) throws FileException {
    double rated = s.quantity("rated", Dimension.VOLTAGE, 5, 60, 24);
    double open = s.quantity("open", Dimension.VOLTAGE, 5, 70, rated * 1.125);
    if (open <= rated) {
      throw s.problemAt(
          "open", "no more than at full load: open=" + open, "let open be above rated");
    }
    return new Transformer(
        name,
        point(s, "hot", s.text("hot")),
        point(s, "common", s.text("common")),
        open,
        rated,
        s.quantity("power", Dimension.APPARENT_POWER, 1, 500),
        s.number("reactance-to-resistance", 0, 20, 0.3),
        s.number("phase", -360, 360, 0),
        s.quantity("breaker", Dimension.AMPERAGE, 0.1, 30, 0));
  }

  private Element fuse(String name, Section s) throws FileException {
    Point[] ends = between(s);
    return new Fuse(
        name,
        ends[0],
        ends[1],
        s.has("kind") ? s.choice("kind", FuseKind.class) : FuseKind.BLADE,
        s.quantity("rating", Dimension.AMPERAGE, 0.1, 30));
  }

  private Element load(String name, Section s) throws FileException {
    Point[] ends = between(s);
    Load.Kind kind = s.choice("kind", Load.Kind.class);
    LoadFigures figures = LoadFigures.of(s, kind);
    return new Load(
        name,
        ends[0],
        ends[1],
        kind,
        figures.inrush(),
        figures.holding(),
        figures.pickUpVolts(),
        figures.holdInVolts(),
        figures.mostVolts(),
        s.has("does") ? s.choice("does", Load.Role.class) : Load.Role.NONE,
        s.integer("stage", 1, 4, 1));
  }

  private Element protective(String name, Section s) throws FileException {
    Point[] ends = between(s);
    return new Switch(name, ends[0], ends[1], s.choice("kind", Switch.Kind.class), s.text("means"));
  }

  private Element contact(String name, Section s) throws FileException {
    Point[] ends = between(s);
    boolean normallyOpen = s.has("closed-by");
    if (normallyOpen == s.has("opened-by")) {
      throw s.problemHere(
          "not one of closed-by and opened-by in " + name, "name the load that switches it");
    }
    String load = s.text(normallyOpen ? "closed-by" : "opened-by");
    return new Contact(name, ends[0], ends[1], load, normallyOpen);
  }

  private Element wire(String name, Section s) throws FileException {
    Point[] ends = between(s);
    double ohms;
    if (s.has("ohm")) {
      ohms = s.quantity("ohm", Dimension.RESISTANCE, 1e-4, 1e6);
    } else if (s.has("length")) {
      Gauge gauge = CableReader.gauge(s);
      ohms = gauge.ohmsPerMetre(20) * s.quantity("length", Dimension.LENGTH, 0.05, 1000);
    } else {
      ohms = 0.01;
    }
    return new Wire(name, ends[0], ends[1], ohms);
  }

  private Point[] between(Section s) throws FileException {
    List<String> names = s.texts("between", 2);
    if (names.size() != 2) {
      throw s.problemAt("between", "not two points", "write it like '[Y, C]'");
    }
    return new Point[] {point(s, "between", names.get(0)), point(s, "between", names.get(1))};
  }

  private Point point(Section s, String key, String name) {
    lines.putIfAbsent("point " + name, s.lineAt(key));
    uses.merge(name, 1, Integer::sum);
    if (name.equals(METAL)) {
      return Point.METAL;
    }
    return terminals.contains(name) ? Point.near(name) : Point.inside(name);
  }

  private void contactsHaveLoads() throws FileException {
    for (Element element : elements) {
      if (element instanceof Contact contact && named(contact.load()) == null) {
        List<String> loads =
            elements.stream().filter(Load.class::isInstance).map(Element::name).toList();
        throw root.problem(
            lines.getOrDefault(contact.name(), 0),
            "no such load: " + contact.load(),
            Spelling.remedy(contact.load(), loads));
      }
    }
  }

  private @Nullable Load named(String name) {
    for (Element element : elements) {
      if (element instanceof Load load && load.name().equals(name)) {
        return load;
      }
    }
    return null;
  }

  /** A point inside that only one part ends at leads nowhere: most likely a slip of the pen. */
  private void pointsMeet() throws FileException {
    for (Map.Entry<String, Integer> use : uses.entrySet()) {
      String name = use.getKey();
      if (use.getValue() == 1 && !terminals.contains(name) && !name.equals(METAL)) {
        Set<String> others = new HashSet<>(uses.keySet());
        others.addAll(terminals);
        others.remove(name);
        throw root.problem(
            lines.getOrDefault("point " + name, 0),
            "only one part ends at this point: " + name,
            Spelling.remedy(name, others));
      }
    }
  }

  private Map<Call, Equipment.Wanted> wanted() throws FileException {
    Map<Call, Equipment.Wanted> wanted = new LinkedHashMap<>();
    Section calls = root.required("calls");
    for (Call call : Call.values()) {
      String key = call.name().toLowerCase(Locale.ROOT).replace('_', '-');
      if (calls.has(key)) {
        Section s = calls.required(key);
        wanted.put(call, new Equipment.Wanted(loads(s, "must"), loads(s, "may")));
        s.done();
      }
    }
    calls.done();
    return wanted;
  }

  private Set<String> loads(Section s, String key) throws FileException {
    List<String> names = s.texts(key, MAX_ELEMENTS);
    List<String> known =
        elements.stream().filter(Load.class::isInstance).map(Element::name).toList();
    for (String name : names) {
      if (!known.contains(name)) {
        throw s.problemAt(key, "no such load: " + name, Spelling.remedy(name, known));
      }
    }
    return Set.copyOf(names);
  }
}
