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
  private boolean showing;

  RailFoot(DeskWindow window) {
    super(new MigLayout("insets 8, gap 6, wrap 1", "[grow,fill]"));
    for (int size : PERCENT) {
      percent.addItem("Size " + size + " %");
    }
    JButton keys = new JButton("Keys (F1)");
    name(theme, "rail.theme", "Light of the window");
    name(percent, "rail.scale", "Size of everything");
    name(sound, "rail.sound", "Sound");
    name(keys, "rail.keys", "Show the keys");
    theme.addActionListener(e -> ifPerson(() -> window.theme((Theme) theme.getSelectedItem())));
    percent.addActionListener(
        e -> ifPerson(() -> window.percent(PERCENT[percent.getSelectedIndex()])));
    sound.addActionListener(e -> ifPerson(() -> window.sound(sound.isSelected())));
    keys.addActionListener(e -> window.showKeys());
    add(theme);
    add(percent);
    add(sound);
    add(keys);
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
