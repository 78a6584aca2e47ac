package bellwire.hardware.sheet;

import bellwire.board.BoardDescription;
import bellwire.hardware.Part;
import bellwire.hardware.ValueExpression;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Where everything on a sheet is: symbols, their texts, supplies, labels, and wires between them.
 */
final class SheetLayout {
  /** A part or a unit of one, with its texts. */
  record Placed(SheetNets.Drawn drawn, Symbol symbol, List<PartTexts.Line> texts) {}

  private final SheetPlan plan;
  private final SheetNets nets;
  private final SheetsFile file;
  private final Paper paper = new Paper();
  private final List<Placed> parts = new ArrayList<>();
  private final List<Wire> wires = new ArrayList<>();
  private final List<NetLabels.Label> labels = new ArrayList<>();
  private final List<SupplyMark> supplies = new ArrayList<>();
  private final List<Cell> free = new ArrayList<>();
  private final List<String> problems = new ArrayList<>();

  SheetLayout(
      SheetPlan plan,
      SheetNets nets,
      SheetsFile file,
      SymbolLibrary library,
      BoardDescription board) {
    this.plan = plan;
    this.nets = nets;
    this.file = file;
    for (SheetNets.Drawn drawn : nets.parts(plan)) {
      SheetPlan.Place place = drawn.place();
      parts.add(
          new Placed(
              drawn,
              library.symbol(
                  drawn.part().line(), drawn.unit(), place.orientation(), place.x(), place.y()),
              new ArrayList<>()));
    }
    lay(board);
  }

  List<Placed> parts() {
    return parts;
  }

  List<Wire> wires() {
    return wires;
  }

  List<NetLabels.Label> labels() {
    return labels;
  }

  List<SheetPlan.Caption> captions() {
    return plan.captions();
  }

  List<SupplyMark> supplies() {
    return supplies;
  }

  /** What found no room or no way. */
  List<String> problems() {
    return problems;
  }

  private void problem(String what) {
    problems.add("sheets-a.yaml: sheet=" + plan.name() + " " + what);
  }

  /** Pins that are left open on purpose. */
  List<Cell> free() {
    return free;
  }

  private void lay(BoardDescription board) {
    for (SheetPlan.Caption caption : plan.captions()) {
      paper.text(Lettering.box(caption.text(), caption.x(), caption.y(), -1, SheetPicture.CAPTION));
    }
    for (Placed part : parts) {
      part.symbol().bodies().forEach(paper::body);
      part.symbol().pins().forEach(paper::lead);
    }
    group(pins());
    markSupplies();
    plan.labels().forEach(this::whereToldTo);
    List<Wire> single = wires.stream().filter(wire -> wire.ends().size() == 1).toList();
    List<Wire> joined = wires.stream().filter(wire -> wire.ends().size() > 1).toList();
    single.stream().filter(wire -> !named(wire)).forEach(this::atPin);
    placeTexts(board);
    single.stream().filter(wire -> !named(wire)).forEach(this::beside);
    new Router(paper).lay(joined).forEach(net -> problem("no way for a wire: net=" + net));
    joined.stream().filter(wire -> !named(wire) && toBeNamed(wire)).forEach(this::beside);
  }

  private Map<String, Map<Cell, Direction>> pins() {
    Map<String, Map<Cell, Direction>> pins = new LinkedHashMap<>();
    for (Placed part : parts) {
      for (Symbol.Pin pin : part.symbol().pins()) {
        String net = part.drawn().net(pin.name());
        if (!paper.inside(pin.end())) {
          problem("outside: part=" + part.drawn().key());
        } else if (net.equals(Part.OPEN)) {
          free.add(pin.end());
          paper.pin(pin.end(), Integer.MAX_VALUE - free.size());
        } else {
          pins.computeIfAbsent(net, name -> new LinkedHashMap<>()).put(pin.end(), pin.out());
        }
      }
    }
    return pins;
  }

  private void group(Map<String, Map<Cell, Direction>> pins) {
    pins.forEach(
        (net, ends) -> {
          int usual = upper(net) || lower(net) ? 0 : plan.reach();
          int reach = plan.reaches().getOrDefault(net, usual);
          for (Map<Cell, Direction> group : NetGroups.of(ends, reach)) {
            Wire wire = new Wire(wires.size(), net);
            wire.ends().putAll(group);
            wires.add(wire);
            group.keySet().forEach(end -> paper.pin(end, wire.number()));
          }
        });
  }

  private boolean upper(String net) {
    return file.upper().contains(net);
  }

  private boolean lower(String net) {
    return file.lower().contains(net);
  }

  private void markSupplies() {
    for (Wire wire : wires) {
      if (wire.ends().size() > 1) {
        continue;
      }
      wire.ends()
          .forEach(
              (end, out) -> {
                boolean above = out == Direction.UP && upper(wire.net());
                if (above || (out == Direction.DOWN && lower(wire.net()))) {
                  SupplyMark mark = new SupplyMark(wire.net(), end, above);
                  supplies.add(mark);
                  paper.body(mark.body());
                  paper.text(mark.text().box());
                }
              });
    }
  }

  private boolean named(Wire wire) {
    Set<Cell> cells = wire.cells();
    return supplies.stream().anyMatch(mark -> cells.contains(mark.end()))
        || labels.stream().anyMatch(label -> cells.contains(label.end()));
  }

  private boolean toBeNamed(Wire wire) {
    return upper(wire.net())
        || lower(wire.net())
        || !nets.elsewhere(wire.net(), plan).isEmpty()
        || wires.stream().filter(other -> other.net().equals(wire.net())).count() > 1;
  }

  /** The net's name, and the sheets that it goes to. */
  private String text(String net) {
    Set<String> sheets = nets.elsewhere(net, plan);
    return upper(net) || lower(net) || sheets.isEmpty()
        ? net
        : net + " /" + String.join(" /", sheets);
  }

  private void atPin(Wire wire) {
    wire.ends()
        .forEach(
            (end, out) -> {
              NetLabels.Label label = NetLabels.at(wire.net(), text(wire.net()), end, out);
              if (out.horizontal() && paper.empty(label.text().box())) {
                add(label);
              }
            });
  }

  private void add(NetLabels.Label label) {
    labels.add(label);
    paper.text(label.text().box());
  }

  private void placeTexts(BoardDescription board) {
    PartTexts place = new PartTexts(paper);
    for (Placed placed : parts) {
      List<String> lines = new ArrayList<>();
      lines.add(placed.drawn().key());
      if (placed.drawn().unit().isEmpty() || placed.drawn().unit().equals("P")) {
        ValueExpression value = placed.drawn().part().value();
        Double number = value == null ? null : value.of(board::nominal);
        lines.addAll(Engineering.lines(placed.drawn().part(), number));
      }
      List<PartTexts.Line> texts =
          place.place(placed.symbol(), lines, placed.drawn().place().side());
      if (texts.isEmpty()) {
        problem("no room for its texts: part=" + placed.drawn().key());
      }
      placed.texts().addAll(texts);
    }
  }

  private void whereToldTo(String net, SheetPlan.Label told) {
    Wire wire =
        wires.stream()
            .filter(candidate -> candidate.net().equals(net))
            .min(Comparator.comparingInt(candidate -> nearest(candidate, told.end())))
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "sheets-a.yaml: sheet=" + plan.name() + " labels: net=" + net));
    NetLabels.Label label = NetLabels.at(net, text(net), told.end(), told.side());
    if (!paper.empty(label.text().box()) || !paper.open(told.end(), wire.number())) {
      problem("no room where the label is told to stand: net=" + net);
      return;
    }
    wire.ends().put(told.end(), told.side().opposite());
    paper.pin(told.end(), wire.number());
    add(label);
  }

  private static int nearest(Wire wire, Cell cell) {
    return wire.ends().keySet().stream().mapToInt(cell::distance).min().orElse(0);
  }

  private void beside(Wire wire) {
    NetLabels.Label label = new NetLabels(paper).beside(wire, text(wire.net()));
    if (label == null) {
      problem("no room for a label: net=" + wire.net() + " at " + wire.ends().keySet());
    } else {
      labels.add(label);
    }
  }
}
