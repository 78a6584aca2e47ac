package bellwire.app.desk;

import bellwire.app.drawing.Palette;
import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import com.formdev.flatlaf.util.UIScale;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.GraphicsEnvironment;
import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.Map;
import javax.swing.JComponent;

/**
 * Colours, type and sizes of every component, from a palette. Sizes here are at 100 %; the zoom
 * multiplies them.
 */
final class Look {
  /** Type of ordinary text, pixels. */
  private static final int TYPE = 15;

  private Look() {}

  /** Once, before the first window. */
  static void prepare() {
    // Sizes are the desk's own, whatever the screen claims; the zoom is on top.
    System.setProperty("flatlaf.uiScale", "1");
    register("DejaVuSans.ttf");
    register("DejaVuSans-Bold.ttf");
  }

  private static void register(String file) {
    try (InputStream in = Look.class.getResourceAsStream("/bellwire/app/fonts/" + file)) {
      if (in == null) {
        throw new IllegalStateException("missing resource file=" + file);
      }
      GraphicsEnvironment.getLocalGraphicsEnvironment()
          .registerFont(Font.createFont(Font.TRUETYPE_FONT, in));
    } catch (IOException | FontFormatException e) {
      throw new IllegalStateException("unreadable resource file=" + file, e);
    }
  }

  /** On the event thread; all windows follow. */
  static void apply(Theme theme, int percent) {
    FlatLaf.setGlobalExtraDefaults(defaults(theme.palette()));
    FlatLaf.setup(theme.dark() ? new FlatDarkLaf() : new FlatLightLaf());
    PlainTextUI.everywhere();
    UIScale.setZoomFactor(percent / 100f);
    FlatLaf.updateUI();
  }

  /** Bold, of a size at 100 %; follows theme and zoom. */
  static <T extends JComponent> T bold(T component, int pixels) {
    component.putClientProperty("FlatLaf.style", "font: bold " + pixels);
    return component;
  }

  /** Plain, of a size at 100 %; follows theme and zoom. */
  static <T extends JComponent> T plain(T component, int pixels) {
    component.putClientProperty("FlatLaf.style", "font: " + pixels);
    return component;
  }

  private static Map<String, String> defaults(Palette palette) {
    Map<String, String> map = new LinkedHashMap<>();
    map.put("defaultFont", TYPE + " \"DejaVu Sans\"");
    colours(map, palette);
    sizes(map);
    return map;
  }

  private static void colours(Map<String, String> map, Palette palette) {
    String paper = hex(palette.paper());
    String ink = hex(palette.ink());
    String accent = hex(palette.accent());
    String selected = hex(palette.selected());
    map.put("@background", paper);
    map.put("@foreground", ink);
    map.put("@componentBackground", paper);
    map.put("@menuBackground", paper);
    map.put("@buttonBackground", paper);
    map.put("@accentBaseColor", accent);
    map.put("@selectionBackground", selected);
    map.put("@selectionForeground", ink);
    map.put("@selectionInactiveBackground", selected);
    map.put("@selectionInactiveForeground", ink);
    map.put("Component.focusColor", accent);
    map.put("Component.focusedBorderColor", accent);
    map.put("Component.borderColor", hex(palette.faint()));
    map.put("Button.borderColor", hex(palette.faint()));
    map.put("Button.default.background", paper);
    map.put("Button.default.foreground", ink);
    map.put("Button.default.borderColor", accent);
    primary(map, palette);
    map.put("ToggleButton.selectedBackground", selected);
    map.put("ToggleButton.selectedForeground", ink);
    map.put("TextField.placeholderForeground", hex(palette.faint()));
    map.put("TextComponent.selectionBackground", selected);
    map.put("TitledBorder.titleColor", ink);
    map.put("Separator.foreground", hex(palette.line()));
    map.put("ToolTip.background", paper);
    map.put("ToolTip.foreground", ink);
    map.put("ProgressBar.foreground", accent);
    map.put("ProgressBar.background", hex(palette.line()));
    map.put("ProgressBar.selectionForeground", paper);
    map.put("ProgressBar.selectionBackground", ink);
    map.put("Label.disabledForeground", hex(palette.faint()));
    map.put("TableHeader.background", paper);
    map.put("TableHeader.foreground", ink);
    map.put("Table.gridColor", hex(palette.line()));
    map.put("ScrollBar.thumb", hex(palette.faint()));
  }

  /** The next action stands out; where light is drawn on dark, without a field of light. */
  private static void primary(Map<String, String> map, Palette palette) {
    boolean dark = palette.isDark();
    map.put("Desk.primary", hex(dark ? palette.selected() : palette.accent()));
    map.put("Desk.onPrimary", hex(dark ? palette.ink() : palette.paper()));
    map.put("Desk.primaryEdge", hex(palette.accent()));
  }

  private static void sizes(Map<String, String> map) {
    map.put("Button.margin", "10,14,10,14");
    map.put("ToggleButton.margin", "10,14,10,14");
    map.put("CheckBox.margin", "12,4,12,4");
    map.put("RadioButton.margin", "12,4,12,4");
    map.put("TextField.margin", "10,8,10,8");
    map.put("FormattedTextField.margin", "10,8,10,8");
    map.put("TextArea.margin", "8,8,8,8");
    map.put("ComboBox.padding", "10,8,10,8");
    map.put("Spinner.padding", "10,8,10,8");
    map.put("List.cellMargins", "10,8,10,8");
    map.put("ComboBox.minimumWidth", "40");
    map.put("Table.rowHeight", "40");
    map.put("Tree.rowHeight", "40");
    map.put("TabbedPane.tabHeight", "42");
    map.put("ScrollBar.width", "18");
    map.put("ScrollBar.showButtons", "false");
    map.put("Slider.thumbSize", "24,40");
    map.put("CheckBox.icon.style", "outlined");
    map.put("Component.focusWidth", "3");
    map.put("Component.innerFocusWidth", "1");
    map.put("Component.arc", "6");
    map.put("Button.arc", "6");
    map.put("TableHeader.height", "40");
    map.put("ProgressBar.horizontalSize", "146,14");
    map.put("Component.hideMnemonics", "false");
  }

  private static String hex(Color colour) {
    return String.format("#%06x", colour.getRGB() & 0xFFFFFF);
  }
}
