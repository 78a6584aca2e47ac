package bellwire.app.desk;

/** Which key does what in the window. */
final class DeskBindings {
  private static final int PAGES = 8;

  private final DeskWindow window;

  DeskBindings(DeskWindow window) {
    this.window = window;
  }

  void bind(DeskKeys keys) {
    keys.bind("F5", "F5", "do what the band says", window::act);
    keys.bind("ESCAPE", "Esc", "stop what runs; close this list", window::escape);
    keys.bind("alt 1", "Alt+1 … Alt+8", "go to a stop of the visit", () -> window.page(1));
    for (int i = 2; i <= PAGES; i++) {
      int number = i;
      keys.bind("alt " + i, "", "", () -> window.page(number));
    }
    keys.bind("ctrl Z", "Ctrl+Z", "take the last edit back", window::undo);
    keys.bind("ctrl shift Z", "Ctrl+Shift+Z", "do it again", window::redo);
    keys.bind("ctrl Y", "", "", window::redo);
    keys.bind("F6", "F6", "put the keyboard on the rail", window::focusRail);
    keys.bind("F7", "F7", "put the keyboard on the newest notice", window::focusNotices);
    keys.bind(
        "F8",
        "F8",
        "next light: light, dark, dim, sunlight",
        () -> window.theme(window.theme().next()));
    keys.bind("ctrl PLUS", "Ctrl +", "everything larger", () -> window.bigger(1));
    keys.bind("ctrl EQUALS", "", "", () -> window.bigger(1));
    keys.bind("ctrl ADD", "", "", () -> window.bigger(1));
    keys.bind("ctrl MINUS", "Ctrl −", "everything smaller", () -> window.bigger(-1));
    keys.bind("ctrl SUBTRACT", "", "", () -> window.bigger(-1));
    keys.bind("ctrl 0", "Ctrl+0", "size 100 %", () -> window.percent(100));
    keys.bind("F1", "F1", "this list", window::showKeys);
    keys.tell("Tab, Shift+Tab", "to the next, the previous field or button");
    keys.tell("Space", "press the button with the frame");
    keys.tell("Arrows, Enter", "in a drawing: to the next conductor or pair; choose it");
    keys.tell("+  −  0", "in a drawing: larger, smaller, all of it");
  }
}
