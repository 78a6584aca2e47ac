package bellwire.app.desk;

import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JPanel;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;

/** Below the stops: light, size of type, sound, keys. */
final class RailFoot extends JPanel {
  static final Integer[] PERCENT = {100, 125, 150, 175, 200};

  private final JComboBox<Theme> theme = new JComboBox<>(Theme.values());
  private final JComboBox<String> percent = new JComboBox<>();
  private final JToggleButton sound = new JToggleButton();
  private final JButton keys = new JButton();
  private boolean showing;

  /**
   * @param name begins the names of its parts
   */
  RailFoot(DeskWindow window, String name) {
    super(new MigLayout("insets 8, gap 6, wrap 1, hidemode 3", "[grow,fill]"));
    for (int size : PERCENT) {
      percent.addItem("Size " + size + " %");
    }
    name(theme, name + ".theme", "Light of the window");
    name(percent, name + ".scale", "Size of everything");
    name(sound, name + ".sound", "Sound");
    name(keys, name + ".keys", "Show the keys");
    theme.addActionListener(e -> ifPerson(() -> window.theme((Theme) theme.getSelectedItem())));
    percent.addActionListener(
        e -> ifPerson(() -> window.percent(PERCENT[percent.getSelectedIndex()])));
    sound.addActionListener(e -> ifPerson(() -> window.sound(sound.isSelected())));
    keys.addActionListener(e -> window.showKeys());
    add(theme);
    add(percent);
    add(sound);
    add(keys);
    whole(true);
  }

  /** Else all but the way to the keys is left out; the list of keys has it too. */
  void whole(boolean wanted) {
    theme.setVisible(wanted);
    percent.setVisible(wanted);
    sound.setVisible(wanted);
    keys.setText(wanted ? "Keys (F1)" : "Look, keys (F1)");
  }

  /** Within the list of keys. */
  RailFoot withoutKeys() {
    keys.setVisible(false);
    return this;
  }

  /** Shows what holds, without doing it again. */
  void show(Theme light, int size, boolean sounds) {
    showing = true;
    theme.setSelectedItem(light);
    percent.setSelectedIndex(java.util.Arrays.asList(PERCENT).indexOf(size));
    sound.setSelected(sounds);
    sound.setText(sounds ? "Sound on" : "Sound off");
    showing = false;
  }

  private void ifPerson(Runnable run) {
    if (!showing) {
      run.run();
    }
  }

  private static void name(javax.swing.JComponent component, String name, String words) {
    component.setName(name);
    component.getAccessibleContext().setAccessibleName(words);
    component.setToolTipText(words);
  }
}
