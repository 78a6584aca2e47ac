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

  Band(Supplier<Palette> palette) {
    super(new MigLayout("insets 10, gap 10", "[grow,fill][pref!]", "[fill]"));
    setName("band");
    interlock = new InterlockBadge(palette);
    add(next, "growx, wmin 200, hmin 72");
    add(interlock, "w 360!, growy");
    edge();
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
