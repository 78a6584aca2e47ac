package bellwire.app.desk;

import java.util.List;
import javax.swing.JComponent;
import javax.swing.UIManager;
import javax.swing.plaf.ComponentUI;

/**
 * Looks as ever, and shows a text that begins like a page as what it is. Swing would set it as
 * HTML, and fetch its pictures from wherever a name in a job says.
 */
public final class PlainTextUI extends ComponentUI {
  /** {@code BasicHTML}'s own switch, on a component. */
  private static final String SWITCH = "html.disable";

  private static final List<String> KINDS =
      List.of(
          "LabelUI",
          "ButtonUI",
          "ToggleButtonUI",
          "CheckBoxUI",
          "RadioButtonUI",
          "ToolTipUI",
          "TabbedPaneUI",
          "MenuItemUI",
          "MenuUI",
          "CheckBoxMenuItemUI",
          "RadioButtonMenuItemUI");

  /** For all that is made from now on, whatever theme is set. */
  static void everywhere() {
    KINDS.forEach(kind -> UIManager.put(kind, PlainTextUI.class.getName()));
  }

  /** Called by Swing, before the component has looked at its text. */
  public static ComponentUI createUI(JComponent component) {
    component.putClientProperty(SWITCH, true);
    return UIManager.getLookAndFeelDefaults().getUI(component);
  }
}
