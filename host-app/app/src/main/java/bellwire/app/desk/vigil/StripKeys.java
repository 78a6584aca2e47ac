package bellwire.app.desk.vigil;

import java.awt.event.ActionEvent;
import java.util.LinkedHashMap;
import java.util.Map;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.KeyStroke;

/** The chart by keyboard. */
final class StripKeys {
  /** What the keys do, for the page to say. */
  static final String WORDS =
      "Arrows move, + and − zoom, Home shows all, Up and Down go from event to event, Shift and arrows"
          + " move the cursor.";

  private static final long HOUR = 3_600_000_000L;
  private static final double PAN = 0.1;
  private static final double PAGE = 0.9;
  private static final double ZOOM = 1.5;
  private static final int FAR = 25;

  private StripKeys() {}

  static void bind(StripChart chart) {
    Map<String, Runnable> keys = new LinkedHashMap<>();
    keys.put("LEFT", () -> chart.move(-PAN));
    keys.put("RIGHT", () -> chart.move(PAN));
    keys.put("PAGE_UP", () -> chart.move(-PAGE));
    keys.put("PAGE_DOWN", () -> chart.move(PAGE));
    for (String in : new String[] {"PLUS", "ADD", "EQUALS", "shift EQUALS", "shift PLUS"}) {
      keys.put(in, () -> chart.zoom(1 / ZOOM));
    }
    keys.put("MINUS", () -> chart.zoom(ZOOM));
    keys.put("SUBTRACT", () -> chart.zoom(ZOOM));
    keys.put("HOME", chart::all);
    keys.put("H", () -> chart.length(HOUR));
    keys.put("M", () -> chart.length(HOUR / 60));
    keys.put("DOWN", () -> chart.event(true));
    keys.put("UP", () -> chart.event(false));
    keys.put("shift LEFT", () -> chart.cursorBy(-1));
    keys.put("shift RIGHT", () -> chart.cursorBy(1));
    keys.put("ctrl LEFT", () -> chart.cursorBy(-FAR));
    keys.put("ctrl RIGHT", () -> chart.cursorBy(FAR));
    keys.forEach((key, what) -> bind(chart, key, what));
  }

  private static void bind(JComponent on, String key, Runnable what) {
    on.getInputMap(JComponent.WHEN_FOCUSED).put(KeyStroke.getKeyStroke(key), key);
    on.getActionMap()
        .put(
            key,
            new AbstractAction() {
              private static final long serialVersionUID = 1L;

              @Override
              public void actionPerformed(ActionEvent e) {
                what.run();
              }
            });
  }
}
