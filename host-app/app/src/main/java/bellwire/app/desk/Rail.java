package bellwire.app.desk;

import java.awt.event.ActionEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.BorderFactory;
import javax.swing.ButtonGroup;
import javax.swing.JPanel;
import javax.swing.KeyStroke;
import javax.swing.UIManager;
import net.miginfocom.swing.MigLayout;

/** Left of every page: the visit in working order. */
final class Rail extends JPanel {
  private static final double LEAST_EMS = 2.5;
  private static final double MOST_EMS = 4;
  private static final int EDGES = 18;

  private final Consumer<String> chosen;
  private final RailFoot foot;
  private final JPanel stops = new JPanel(new MigLayout("insets 0, gap 0, wrap 1", "[grow,fill]"));
  private final List<Page> pages = new ArrayList<>();
  private final List<RailStop> buttons = new ArrayList<>();

  /**
   * @param chosen told the key of the page asked for
   * @param foot what stands below the stops
   */
  Rail(Consumer<String> chosen, RailFoot foot) {
    super(new MigLayout("insets 9 0 9 0, gap 0, wrap 1", "[grow,fill]", "[]push[]"));
    this.chosen = chosen;
    this.foot = foot;
    setName("rail");
    getAccessibleContext().setAccessibleName("Stops of the visit");
    add(stops);
    add(foot);
    edge();
    arrows();
  }

  void show(List<Page> shown) {
    stops.removeAll();
    pages.clear();
    buttons.clear();
    ButtonGroup group = new ButtonGroup();
    for (Page page : shown) {
      RailStop stop = new RailStop(buttons.size() + 1, shown.size(), page.key(), page.title());
      stop.addActionListener(e -> chosen.accept(page.key()));
      group.add(stop);
      pages.add(page);
      buttons.add(stop);
      stops.add(stop);
    }
    revalidate();
    repaint();
  }

  void select(Page page) {
    buttons.get(pages.indexOf(page)).setSelected(true);
  }

  void state(Page page) {
    buttons.get(pages.indexOf(page)).state(page.state());
  }

  /**
   * Stops as high as there is room for, and a shorter foot before there is too little.
   *
   * @param narrow whether the window is narrow for its type
   * @param height of its place, pixels
   */
  void fit(boolean narrow, int height) {
    int em = getFont().getSize();
    int count = Math.max(1, buttons.size());
    foot.whole(true);
    int room = height - EDGES - foot.getPreferredSize().height;
    if (room < count * LEAST_EMS * em) {
      foot.whole(false);
      room = height - EDGES - foot.getPreferredSize().height;
    }
    int high = (int) Math.max(LEAST_EMS * em, Math.min(MOST_EMS * em, room / (double) count));
    buttons.forEach(b -> b.fit(narrow, high));
    revalidate();
  }

  void focus() {
    buttons.stream().filter(RailStop::isSelected).forEach(RailStop::requestFocusInWindow);
  }

  /** Up and Down move along the rail. */
  private void arrows() {
    bind("UP", -1);
    bind("DOWN", 1);
  }

  private void bind(String key, int step) {
    stops.getInputMap(WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(KeyStroke.getKeyStroke(key), key);
    stops
        .getActionMap()
        .put(
            key,
            new AbstractAction() {
              @Override
              public void actionPerformed(ActionEvent e) {
                for (int i = 0; i < buttons.size(); i++) {
                  if (buttons.get(i).isFocusOwner()) {
                    int to = Math.min(buttons.size() - 1, Math.max(0, i + step));
                    buttons.get(to).requestFocusInWindow();
                    return;
                  }
                }
              }
            });
  }

  @Override
  public void updateUI() {
    super.updateUI();
    edge();
  }

  private void edge() {
    setBorder(
        BorderFactory.createMatteBorder(0, 0, 0, 1, UIManager.getColor("Separator.foreground")));
  }
}
