package bellwire.app.desk;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.KeyboardFocusManager;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * The place of the page in view. The others are kept out of the window, so that a change of light
 * or size makes over what is seen, and each of the others when it comes into view.
 */
final class PagesView extends JPanel {
  private final Map<String, JComponent> views = new LinkedHashMap<>();
  private final Set<String> outdated = new HashSet<>();
  private String key = "";
  private @Nullable JComponent over;
  private transient @Nullable Component keyboard;

  PagesView() {
    super(new BorderLayout());
    setName("pages");
  }

  /** Other pages; none is in view. */
  void pages(List<Page> pages) {
    views.clear();
    outdated.clear();
    key = "";
    over = null;
    removeAll();
    pages.forEach(page -> views.put(page.key(), new PageView(page)));
  }

  /** Brings a page into view. */
  void show(String shown) {
    JComponent view = views.get(shown);
    if (view == null) {
      throw new IllegalArgumentException("no page of that key, key=" + shown);
    }
    if (outdated.remove(shown)) {
      SwingUtilities.updateComponentTreeUI(view);
    }
    key = shown;
    over = null;
    place(view);
  }

  /** Shows something else in the page's place, until {@link #back} or another page. */
  void over(JComponent shown) {
    over = shown;
    place(shown);
  }

  boolean isOver() {
    return over != null;
  }

  /** To the page again. */
  void back() {
    if (over != null && !key.isEmpty()) {
      show(key);
    }
  }

  private void place(JComponent view) {
    if (getComponentCount() != 1 || getComponent(0) != view) {
      removeAll();
      add(view);
      revalidate();
      repaint();
    }
  }

  /**
   * Takes what is in view out of the window before light or size change; the keyboard's place too.
   */
  void takeOut() {
    outdated.addAll(views.keySet());
    Component owner = KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
    if (owner != null && SwingUtilities.isDescendingFrom(owner, this)) {
      keyboard = owner;
    }
    removeAll();
  }

  /** Makes it over and brings it back. */
  void bringBack() {
    if (over != null) {
      SwingUtilities.updateComponentTreeUI(over);
      place(over);
    } else if (!key.isEmpty()) {
      show(key);
    }
    if (keyboard != null) {
      keyboard.requestFocusInWindow();
      keyboard = null;
    }
  }
}
