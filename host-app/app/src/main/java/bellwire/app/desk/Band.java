package bellwire.app.desk;

import bellwire.app.drawing.Palette;
import java.util.function.Supplier;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.UIManager;
import net.miginfocom.swing.MigLayout;

/** Above every page: what to do next, and the interlock. */
final class Band extends JPanel {
  private final NextButton next = new NextButton();
  private final InterlockBadge interlock;
  private boolean narrow;

  Band(Supplier<Palette> palette) {
    super(new MigLayout("insets 10, gap 10", "[grow,fill][]", ""));
    setName("band");
    interlock = new InterlockBadge(palette);
    arrange();
    edge();
  }

  /** Where the window is narrow for its type the interlock stands above, not beside. */
  void narrow(boolean wanted) {
    if (wanted != narrow) {
      narrow = wanted;
      interlock.thin(wanted);
      arrange();
    }
  }

  private void arrange() {
    removeAll();
    if (narrow) {
      add(interlock, "span, growx, wrap");
      add(next, "span, growx, wmin 200");
    } else {
      add(next, "growx, wmin 200, hmin 72");
      add(interlock, "w 360!, growy");
    }
    revalidate();
  }

  void show(NextAction action) {
    next.show(action);
  }

  void show(InterlockState state) {
    interlock.show(state);
  }

  InterlockState interlock() {
    return interlock.state();
  }

  /** F5. */
  void act() {
    if (next.isEnabled()) {
      next.doClick(0);
    }
  }

  @Override
  public void updateUI() {
    super.updateUI();
    edge();
  }

  private void edge() {
    setBorder(
        BorderFactory.createMatteBorder(0, 0, 1, 0, UIManager.getColor("Separator.foreground")));
  }
}
