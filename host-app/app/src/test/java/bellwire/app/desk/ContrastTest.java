package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.drawing.Palette;
import java.awt.Color;
import java.awt.Component;
import java.awt.Container;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JProgressBar;
import javax.swing.JScrollBar;
import javax.swing.JScrollPane;
import javax.swing.JSpinner;
import javax.swing.JTable;
import javax.swing.JViewport;
import javax.swing.text.JTextComponent;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * All text of all pages in every light against its ground, at least 4.5:1 (WCAG 2.2, success
 * criterion 1.4.3, level AA); names for all that takes the keyboard (1.1.1, 4.1.2); targets of at
 * least 40 px, well above the 24 of 2.5.8.
 */
@Tag("window")
class ContrastTest {
  private static final double LEAST = 4.5;
  private static final int TARGET = 40;
  private static final int SMALLEST_TYPE = 14;

  @TempDir Path directory;

  @BeforeAll
  static void display() {
    DeskRig.require();
  }

  @Test
  void allTextOfAllPagesReadsInEveryLight() {
    List<String> faults = new ArrayList<>();
    int[] seen = {0};
    try (DeskRig rig = DeskRig.demo(directory)) {
      for (Theme theme : Theme.values()) {
        rig.look(theme, 100);
        for (Page page : rig.window().pages()) {
          rig.run(w -> w.go(page.key()));
          rig.robot().waitForIdle();
          rig.run(
              w ->
                  walk(
                      w.frame().getContentPane(),
                      c -> {
                        seen[0]++;
                        check(theme + " " + page.key(), c, faults);
                      }));
        }
      }
    }
    System.out.println("components checked: " + seen[0]);
    assertThat(seen[0]).isGreaterThan(500);
    assertThat(faults).isEmpty();
  }

  private interface Look {
    void at(JComponent component);
  }

  private static void walk(Container from, Look look) {
    for (Component component : from.getComponents()) {
      if (!component.isVisible()) {
        continue;
      }
      if (component instanceof JComponent c) {
        look.at(c);
      }
      if (component instanceof Container inner && !isWhole(component)) {
        walk(inner, look);
      }
    }
  }

  /** Whose parts are the toolkit's own. */
  private static boolean isWhole(Component component) {
    return component instanceof JComboBox
        || component instanceof JScrollBar
        || component instanceof JSpinner;
  }

  private static void check(String where, JComponent component, List<String> faults) {
    String what =
        where
            + ": "
            + component.getClass().getSimpleName()
            + " '"
            + component.getName()
            + "' "
            + text(component);
    if (component.isEnabled() && !text(component).isBlank()) {
      double contrast = Palette.contrast(ink(component), ground(component));
      if (contrast < LEAST) {
        faults.add(what + String.format(Locale.ROOT, ": contrast %.2f", contrast));
      }
      if (component.getFont().getSize() < SMALLEST_TYPE) {
        faults.add(what + ": type of " + component.getFont().getSize() + " px");
      }
    }
    if (!takesKeyboard(component)) {
      return;
    }
    String name = component.getAccessibleContext().getAccessibleName();
    if (name == null || name.isBlank()) {
      faults.add(what + ": no accessible name");
    }
    if (component.getHeight() > 0 && component.getHeight() < TARGET && component.getWidth() > 0) {
      faults.add(what + ": only " + component.getHeight() + " px high");
    }
  }

  private static boolean takesKeyboard(JComponent c) {
    return c.isFocusable()
        && c.isEnabled()
        && (c instanceof AbstractButton
            || c instanceof JTextComponent
            || c instanceof JComboBox
            || c instanceof JList
            || c instanceof JTable
            || c instanceof DrawingPanel);
  }

  private static String text(JComponent component) {
    if (component instanceof NextButton next) {
      return next.words();
    }
    if (component instanceof RailStop stop) {
      return stop.getAccessibleContext().getAccessibleName();
    }
    String text = null;
    if (component instanceof JLabel label) {
      text = label.getText();
    } else if (component instanceof AbstractButton button) {
      text = button.getText();
    } else if (component instanceof JTextComponent field) {
      text = field.getText();
    } else if (component instanceof JComboBox<?> box) {
      text = String.valueOf(box.getSelectedItem());
    } else if (component instanceof JList<?> || component instanceof JTable) {
      text = "cells";
    } else if (component instanceof JProgressBar bar && bar.isStringPainted()) {
      text = bar.getString();
    }
    return text == null ? "" : text;
  }

  /** With what lies under it where the ink is translucent. */
  private static Color ink(JComponent component) {
    return over(component.getForeground(), ground(component));
  }

  private static Color ground(JComponent component) {
    if (component instanceof AbstractButton button
        && button.isContentAreaFilled()
        && component.getBackground() != null) {
      return over(component.getBackground(), under(component.getParent()));
    }
    return under(component);
  }

  private static Color under(Component component) {
    for (Component c = component; c != null; c = c.getParent()) {
      boolean passes =
          c instanceof JComponent j && !j.isOpaque()
              || c instanceof JViewport
              || c instanceof JScrollPane;
      if (!passes && c.getBackground() != null) {
        return c.getBackground();
      }
    }
    throw new AssertionError("no ground under " + component);
  }

  private static Color over(Color ink, Color ground) {
    double a = ink.getAlpha() / 255.0;
    return new Color(
        (int) Math.round(ink.getRed() * a + ground.getRed() * (1 - a)),
        (int) Math.round(ink.getGreen() * a + ground.getGreen() * (1 - a)),
        (int) Math.round(ink.getBlue() * a + ground.getBlue() * (1 - a)));
  }
}
