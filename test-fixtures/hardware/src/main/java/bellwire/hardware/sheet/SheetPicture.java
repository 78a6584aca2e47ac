package bellwire.hardware.sheet;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Draws a sheet as laid out. */
final class SheetPicture {
  /** Size of a caption. */
  static final double CAPTION = 2.6;

  private static final String SYMBOL = "0.3";
  private static final String WIRE = "0.22";

  private SheetPicture() {}

  static void draw(SheetLayout layout, Drawing drawing) {
    drawing.open("wires", "stroke", "black", "stroke-width", WIRE);
    for (Wire wire : layout.wires()) {
      wire(wire, drawing);
    }
    drawing.close();
    for (SheetLayout.Placed part : layout.parts()) {
      part(part, drawing);
    }
    for (SupplyMark mark : layout.supplies()) {
      drawing.open("net", "data-net", mark.net(), "stroke", "black", "stroke-width", SYMBOL);
      mark.marks().forEach(drawing::mark);
      drawing.text(mark.text());
      drawing.close();
    }
    for (NetLabels.Label label : layout.labels()) {
      drawing.open("net", "data-net", label.net());
      drawing.text(label.text());
      drawing.close();
    }
    drawing.open("captions");
    for (SheetPlan.Caption caption : layout.captions()) {
      drawing.text(caption.text(), caption.x(), caption.y(), -1, CAPTION);
    }
    drawing.close();
    drawing.open("open", "stroke", "black", "stroke-width", WIRE);
    for (Cell cell : layout.free()) {
      double half = 0.5;
      drawing.line(cell.x() - half, cell.y() - half, cell.x() + half, cell.y() + half, "");
      drawing.line(cell.x() - half, cell.y() + half, cell.x() + half, cell.y() - half, "");
    }
    drawing.close();
  }

  private static void wire(Wire wire, Drawing drawing) {
    for (List<Cell> line : wire.lines()) {
      Cell from = line.get(0);
      Cell to = line.get(1);
      drawing.line(from.x(), from.y(), to.x(), to.y(), "");
    }
    Set<Cell> dots = new LinkedHashSet<>();
    for (Cell cell : new ArrayList<>(wire.cells())) {
      if (wire.degree(cell) > 2) {
        dots.add(cell);
      }
    }
    dots.forEach(
        cell -> drawing.circle(cell.x(), cell.y(), 0.4, " fill=\"black\" stroke=\"none\""));
  }

  private static void part(SheetLayout.Placed part, Drawing drawing) {
    drawing.open(
        "part", "data-part", part.drawn().key(), "stroke", "black", "stroke-width", SYMBOL);
    part.symbol().marks().forEach(drawing::mark);
    for (Symbol.Pin pin : part.symbol().pins()) {
      double back = pin.length();
      drawing.line(
          pin.end().x() - pin.out().dx * back,
          pin.end().y() - pin.out().dy * back,
          pin.end().x(),
          pin.end().y(),
          " data-pin=\"" + pin.name() + "\"");
    }
    part.texts().forEach(drawing::text);
    drawing.close();
  }
}
