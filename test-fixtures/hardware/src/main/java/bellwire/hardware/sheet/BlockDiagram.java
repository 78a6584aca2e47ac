package bellwire.hardware.sheet;

import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Sheet 0: the netlist's blocks as boxes, and what goes from one to another. Every line names nets,
 * which have to join its two boxes.
 */
final class BlockDiagram {
  private static final double ARROW = 1.2;
  private static final double HALF_ARROW = 0.5;

  /**
   * @param blocks of the netlist
   */
  private record Block(String name, String title, List<String> blocks, Box box) {}

  /** A line, and which end it is that has an arrow. */
  private record Flow(Wire wire, Cell head, Direction into, String text) {}

  private final Netlist netlist;
  private final SheetsFile file;
  private final Paper paper = new Paper();
  private final Map<String, Block> blocks = new LinkedHashMap<>();
  private final List<Flow> flows = new ArrayList<>();
  private final List<PartTexts.Line> labels = new ArrayList<>();
  private final List<String> problems;

  /**
   * @param problems takes what found no room or no way
   */
  BlockDiagram(Netlist netlist, SheetsFile file, List<String> problems) {
    this.netlist = netlist;
    this.file = file;
    this.problems = problems;
    for (JsonNode node : file.diagram().path("boxes")) {
      List<Integer> at = new ArrayList<>();
      node.path("at").forEach(number -> at.add(number.asInt()));
      Block block =
          new Block(
              node.path("name").asText(),
              node.path("title").asText(),
              SheetsFile.texts(node.path("blocks")),
              new Box(at.get(0), at.get(1), at.get(2), at.get(3)));
      blocks.put(block.name(), block);
      paper.body(block.box());
    }
    for (JsonNode node : file.diagram().path("lines")) {
      flow(node);
    }
    new Router(paper)
        .lay(flows.stream().map(Flow::wire).toList())
        .forEach(name -> problems.add("sheets-a.yaml: diagram: no way for " + name));
    flows.forEach(this::label);
  }

  /**
   * Every block of the netlist that no box or more than one has, and every net that a line lies
   * about.
   */
  List<String> untrue() {
    List<String> untrue = new ArrayList<>();
    Set<String> all = new TreeSet<>();
    netlist.parts().forEach(part -> all.add(part.block()));
    for (Block block : blocks.values()) {
      for (String name : block.blocks()) {
        if (!all.remove(name)) {
          untrue.add("diagram: box=" + block.name() + " block=" + name);
        }
      }
    }
    all.forEach(name -> untrue.add("diagram: no box has block=" + name));
    for (JsonNode node : file.diagram().path("lines")) {
      for (String net : SheetsFile.texts(node.path("nets"))) {
        for (String end : List.of("from", "to")) {
          Block block = block(node.path(end).asText());
          if (netlist.parts().stream()
              .noneMatch(p -> block.blocks().contains(p.block()) && p.pins().containsValue(net))) {
            untrue.add("diagram: net=" + net + " is not in box=" + block.name());
          }
        }
      }
    }
    return untrue;
  }

  private Block block(String end) {
    Block block = blocks.get(end.split(" ", 2)[0]);
    if (block == null) {
      throw new IllegalArgumentException("sheets-a.yaml: diagram: box=" + end);
    }
    return block;
  }

  private void flow(JsonNode node) {
    List<String> nets = SheetsFile.texts(node.path("nets"));
    Wire wire = new Wire(flows.size(), String.join(" ", nets));
    Cell head = end(wire, node.path("to").asText());
    Direction into = wire.ends().getOrDefault(head, Direction.LEFT).opposite();
    end(wire, node.path("from").asText());
    wire.ends().keySet().forEach(cell -> paper.pin(cell, wire.number()));
    flows.add(new Flow(wire, head, into, node.path("text").asText()));
  }

  /**
   * @param text a box, one of its sides, and how far from that side's left or upper end
   */
  private Cell end(Wire wire, String text) {
    String[] words = text.split(" ", -1);
    Box box = block(text).box();
    int along = Integer.parseInt(words[2]);
    int x = (int) box.x();
    int y = (int) box.y();
    Direction out = SheetPlan.toward(words[1]);
    Cell end =
        switch (out) {
          case RIGHT -> new Cell((int) box.right() + 1, y + along);
          case LEFT -> new Cell(x - 1, y + along);
          case UP -> new Cell(x + along, y - 1);
          case DOWN -> new Cell(x + along, (int) box.bottom() + 1);
        };
    wire.ends().put(end, out);
    return end;
  }

  /** Above a level stretch of the line, or beside an upright one, the longest first. */
  private void label(Flow flow) {
    String text = flow.text();
    List<PartTexts.Line> choices = new ArrayList<>();
    for (List<Cell> line : flow.wire().lines()) {
      Cell a = line.get(0);
      Cell b = line.get(1);
      for (int i = 0; i <= a.distance(b); i++) {
        double x = a.x() + (b.x() > a.x() ? i : 0);
        double y = a.y() + (b.y() > a.y() ? i : 0);
        if (a.y() == b.y()) {
          choices.add(new PartTexts.Line(text, x, y - 1.4, 0));
          choices.add(new PartTexts.Line(text, x, y + 1.5, 0));
        } else {
          choices.add(new PartTexts.Line(text, x + 0.6, y, -1));
          choices.add(new PartTexts.Line(text, x - 0.6, y, 1));
        }
      }
    }
    choices.stream()
        .filter(choice -> paper.empty(choice.box()))
        .min(Comparator.comparingDouble(choice -> off(choice, flow.wire())))
        .ifPresentOrElse(
            choice -> {
              labels.add(choice);
              paper.text(choice.box());
            },
            () -> problems.add("sheets-a.yaml: diagram: no room for " + text));
  }

  /** How far a label is from the middle of what its line joins; less for one that is level. */
  private static double off(PartTexts.Line label, Wire wire) {
    double x = wire.ends().keySet().stream().mapToInt(Cell::x).average().orElse(0);
    double y = wire.ends().keySet().stream().mapToInt(Cell::y).average().orElse(0);
    double bias = label.anchor() == 0 ? 0 : 8;
    return Math.abs(label.x() - x) + Math.abs(label.y() - y) + bias;
  }

  void draw(Drawing drawing, SheetNets nets) {
    drawing.open("flows", "stroke", "black", "stroke-width", "0.3");
    for (Flow flow : flows) {
      for (List<Cell> line : flow.wire().lines()) {
        drawing.line(line.get(0).x(), line.get(0).y(), line.get(1).x(), line.get(1).y(), "");
      }
      flow.wire()
          .ends()
          .forEach(
              (end, out) -> drawing.line(end.x(), end.y(), end.x() - out.dx, end.y() - out.dy, ""));
      arrow(flow, drawing);
    }
    drawing.close();
    for (Block block : blocks.values()) {
      box(block, drawing, nets);
    }
    drawing.open("captions");
    labels.forEach(drawing::text);
    drawing.close();
  }

  private static void arrow(Flow flow, Drawing drawing) {
    double x = flow.head().x() + flow.into().dx;
    double y = flow.head().y() + flow.into().dy;
    double backX = x - ARROW * flow.into().dx;
    double backY = y - ARROW * flow.into().dy;
    double sideX = HALF_ARROW * flow.into().dy;
    double sideY = HALF_ARROW * flow.into().dx;
    drawing.mark(Mark.solid(x, y, backX + sideX, backY + sideY, backX - sideX, backY - sideY));
  }

  private void box(Block block, Drawing drawing, SheetNets nets) {
    drawing.open("part", "data-part", block.name(), "stroke", "black", "stroke-width", "0.5");
    drawing.box(block.box());
    List<String> lines = Frame.wrapped(block.title(), block.box().width() - 1.5, Lettering.SIZE);
    Set<String> sheets = new TreeSet<>(SheetNets::compare);
    for (Part part : netlist.parts()) {
      if (block.blocks().contains(part.block())) {
        sheets.addAll(nets.sheets(part));
      }
    }
    List<String> all = new ArrayList<>(lines);
    all.add((sheets.size() > 1 ? "sheets " : "sheet ") + String.join(", ", sheets));
    double middle = block.box().x() + block.box().width() / 2;
    double first =
        block.box().y() + block.box().height() / 2 - Lettering.LINE * (all.size() - 1) / 2;
    for (int i = 0; i < all.size(); i++) {
      drawing.text(all.get(i), middle, first + i * Lettering.LINE, 0, Lettering.SIZE);
    }
    drawing.close();
  }
}
