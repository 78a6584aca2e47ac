package bellwire.hardware.sheet;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** All sheets of the board. */
public final class Sheets {
  private static final String DIAGRAM = "Block diagram";

  private final SheetsFile file = new SheetsFile();
  private final SymbolLibrary library = new SymbolLibrary(file);
  private final Netlist netlist;
  private final BoardDescription board;

  public Sheets(Netlist netlist, BoardDescription board) {
    this.netlist = netlist;
    this.board = board;
  }

  /**
   * Draws them all.
   *
   * @return each sheet as SVG, by its file's name
   */
  public Map<String, String> svg() {
    List<String> problems = new ArrayList<>();
    Map<String, String> drawn = draw(problems);
    if (!problems.isEmpty()) {
      throw new IllegalStateException(String.join("\n", problems));
    }
    return drawn;
  }

  Map<String, String> draw(List<String> problems) {
    List<SheetPlan> plans = file.sheets();
    SheetNets nets = new SheetNets(netlist, plans, library);
    Map<String, String> drawn = new LinkedHashMap<>();
    int all = plans.size() + 1;
    BlockDiagram diagram = new BlockDiagram(netlist, file, problems);
    problems.addAll(diagram.untrue());
    Drawing first = new Drawing("Bellwire sensing board, revision A: " + DIAGRAM);
    diagram.draw(first, nets);
    Frame.draw(first, "0", DIAGRAM, SheetsFile.texts(file.diagram().path("notes")), 1, all);
    drawn.put("sheet-0.svg", first.svg());
    for (int i = 0; i < plans.size(); i++) {
      SheetPlan plan = plans.get(i);
      SheetLayout layout = new SheetLayout(plan, nets, file, library, board);
      problems.addAll(layout.problems());
      String given = plan.title();
      String title = given == null ? title(plan) : given;
      Drawing drawing = new Drawing("Bellwire sensing board, revision A: " + title);
      SheetPicture.draw(layout, drawing);
      Frame.draw(drawing, plan.name(), title, notes(plan, nets), i + 2, all);
      drawn.put("sheet-" + plan.name() + ".svg", drawing.svg());
    }
    return drawn;
  }

  private String title(SheetPlan plan) {
    String title = netlist.sheets().get(plan.number());
    if (title == null) {
      throw new IllegalArgumentException("sheets-a.yaml: sheet=" + plan.name());
    }
    return title;
  }

  private static List<String> notes(SheetPlan plan, SheetNets nets) {
    List<String> notes = new ArrayList<>(nets.repeats(plan));
    notes.add("Names with /2 /5 go on to sheets 2 and 5. A cross: left open on purpose.");
    notes.add(Engineering.plainResistor() + " Kinds: parts-a.yaml.");
    notes.addAll(plan.notes());
    return notes;
  }
}
