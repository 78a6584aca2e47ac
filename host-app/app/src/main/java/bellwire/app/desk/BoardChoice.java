package bellwire.app.desk;

import bellwire.app.bench.BenchTransport;
import bellwire.app.serial.SerialDevices;
import bellwire.app.visit.Boards;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** Where the board is: a serial device of this computer, a simulated bench, the demo. */
final class BoardChoice extends JPanel {
  private static final int MOST = 30;

  private final DeskContext ctx;
  private final JComboBox<Line> list = new JComboBox<>();
  private final Words said = new Words("");
  private boolean filling;

  /** A line of the list. */
  private record Line(String words, Boards boards) {
    @Override
    public String toString() {
      return words;
    }
  }

  /**
   * @param benchFile asks for a bench file, in the place of the page
   */
  BoardChoice(DeskContext ctx, Consumer<Consumer<Path>> benchFile) {
    super(new MigLayout("insets 0, gap 8, wrap 3", "[grow,fill][][]"));
    this.ctx = ctx;
    list.setName("visit.board");
    list.getAccessibleContext().setAccessibleName("Where the board is");
    JButton look = new JButton("Look again");
    look.setName("visit.board-look");
    JButton bench = new JButton("Simulated bench…");
    bench.setName("visit.board-bench");
    add(list, "wmin 160");
    add(look);
    add(bench);
    add(said, "span, growx");
    look.addActionListener(e -> look());
    bench.addActionListener(
        e ->
            benchFile.accept(
                file -> {
                  take(new Boards.Bench(file, BenchTransport.Pace.FAST));
                  look();
                }));
    list.addActionListener(
        e -> {
          if (!filling && list.getSelectedItem() instanceof Line line) {
            take(line.boards());
          }
        });
    fill(List.of());
    look();
  }

  private void take(Boards boards) {
    ctx.visit().boards(boards);
    ctx.left(BoardPlace.KEY, BoardPlace.line(boards));
    ctx.interlock(InterlockState.NOT_CONNECTED);
    say();
  }

  private void look() {
    ctx.later(CompletableFuture.supplyAsync(SerialDevices::list), this::fill);
  }

  private void fill(List<SerialDevices.Device> devices) {
    List<Line> lines = new ArrayList<>();
    devices.stream()
        .limit(MOST)
        .forEach(
            d ->
                lines.add(
                    new Line(
                        d.path() + "   " + d.description(),
                        new Boards.Serial(d.path(), Boards.BAUD))));
    Boards now = ctx.visit().boards();
    if (lines.stream().noneMatch(line -> line.boards().equals(now))) {
      lines.add(0, new Line(now.words(), now));
    }
    if (!(now instanceof Boards.Demo)) {
      lines.add(new Line("the demo's simulated bench", new Boards.Demo(true)));
    }
    filling = true;
    list.removeAllItems();
    for (Line line : lines) {
      list.addItem(line);
      if (line.boards().equals(now)) {
        list.setSelectedItem(line);
      }
    }
    filling = false;
    say();
  }

  private void say() {
    said.setText(
        ctx.visit().boards().simulated()
            ? "SIMULATED: nothing is connected. Every figure is one of a cable that does not exist."
            : "The sensing board's serial device. Plug the board in, then 'Look again'.");
  }
}
