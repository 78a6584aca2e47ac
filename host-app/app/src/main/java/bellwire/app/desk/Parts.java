package bellwire.app.desk;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;
import javax.swing.ButtonGroup;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;

/** The parts of a page, one of which is in view, under the buttons that say which. */
public final class Parts extends JPanel {
  private static final long serialVersionUID = 1L;

  private final String page;
  private final transient Consumer<String> shows;
  private final JPanel bar = new JPanel(new MigLayout("insets 10 10 0 10", "", ""));
  private final ButtonGroup group = new ButtonGroup();
  private final Map<String, JToggleButton> buttons = new LinkedHashMap<>();
  private final Cards cards = new Cards();
  private String shown = "";

  /**
   * @param page its key, with which its buttons' names begin
   * @param shows told which part is shown now, by a button or by {@link #show}
   */
  public Parts(String page, Consumer<String> shows) {
    super(new MigLayout("insets 0, fill", "[grow, fill]", "[]0[grow, fill]"));
    this.page = page;
    this.shows = shows;
    setName("page." + page + ".content");
    add(bar, "wrap");
    add(cards);
  }

  /**
   * Adds a part.
   *
   * @param key one word, such as 'form', whose button is then named 'vigil.toForm'
   * @param words on its button
   */
  public void add(String key, String words, JComponent part) {
    JToggleButton button = new JToggleButton(words);
    button.setName(page + ".to" + Character.toUpperCase(key.charAt(0)) + key.substring(1));
    button.addActionListener(e -> show(key));
    group.add(button);
    bar.add(button, "hmin 40");
    buttons.put(key, button);
    cards.add(part, key);
  }

  /** Whether a part can be chosen. */
  public void offer(String key, boolean offered) {
    button(key).setEnabled(offered);
  }

  public void show(String key) {
    button(key).setSelected(true);
    shown = key;
    cards.show(key);
    shows.accept(key);
  }

  /** The part in view; empty before the first. */
  public String shown() {
    return shown;
  }

  private JToggleButton button(String key) {
    JToggleButton button = buttons.get(key);
    if (button == null) {
      throw new IllegalArgumentException("no part of that key, key=" + key);
    }
    return button;
  }
}
