package bellwire.app.desk;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import bellwire.app.visit.Visit;
import java.awt.Component;
import java.awt.Container;
import java.awt.Dimension;
import java.awt.GraphicsEnvironment;
import java.awt.Rectangle;
import java.awt.event.KeyEvent;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import javax.imageio.ImageIO;
import javax.swing.AbstractButton;
import javax.swing.JComponent;
import javax.swing.KeyStroke;
import javax.swing.text.JTextComponent;
import org.assertj.swing.core.BasicRobot;
import org.assertj.swing.core.MouseButton;
import org.assertj.swing.core.Robot;
import org.assertj.swing.edt.FailOnThreadViolationRepaintManager;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.timing.Condition;
import org.assertj.swing.timing.Pause;
import org.assertj.swing.timing.Timeout;
import org.jspecify.annotations.Nullable;

/**
 * A real window for tests: opened on a job, driven by the robot's keys and pointer, looked at by
 * screenshots under {@code target/screenshots}. Swing touched on a wrong thread fails the test.
 *
 * <pre>
 * try (DeskRig rig = DeskRig.demo(directory)) {
 *   rig.page("survey");
 *   rig.press("F5");
 *   rig.until("the survey is over", 30, () -> rig.state("survey").startsWith("done"));
 *   rig.shots("survey");
 * }
 * </pre>
 */
public final class DeskRig implements AutoCloseable {
  private static final Path SCREENSHOTS = Path.of("target", "screenshots");
  private static final int TIMED_ROUNDS = 3;
  private static final String BY_KEY_OR_NOT =
      "(?<=\\p{ASCII})(?=\\P{ASCII})|(?<=\\P{ASCII})(?=\\p{ASCII})";
  private static final List<Dimension> SIZES =
      List.of(new Dimension(1366, 768), new Dimension(1920, 1080));

  /** One for all rigs: the robot goes on waiting for a queue that was taken away. */
  private static @Nullable EventThreadWatch watching;

  private final Robot robot;
  private final DeskWindow window;
  private final EventThreadWatch watch;
  private final Path prefs;

  private DeskRig(Robot robot, DeskWindow window, EventThreadWatch watch, Path prefs) {
    this.robot = robot;
    this.window = window;
    this.watch = watch;
    this.prefs = prefs;
  }

  /** Without a display a test is skipped; under CI it fails. */
  public static void require() {
    if (Boolean.getBoolean("bellwire.beside")) {
      fail("a window has one pointer and one focus: the test's class needs @Tag(\"window\")");
    }
    if (!GraphicsEnvironment.isHeadless()) {
      return;
    }
    String message = "no display (Debian packages xvfb, openbox; set DISPLAY)";
    if ("true".equals(System.getenv("CI")) || Boolean.getBoolean("CI")) {
      fail(message);
    }
    abort(message);
  }

  /** No job yet. */
  public static DeskRig empty(Path directory) {
    return open(directory, null);
  }

  /** A job file, made where there is none. */
  public static DeskRig job(Path file) {
    DeskRig rig = open(file.getParent(), file);
    rig.until("the job is open", 20, () -> rig.window.pages().size() > 1);
    return rig;
  }

  /** The demo's house. */
  public static DeskRig demo(Path directory) {
    DeskRig rig = open(directory, null);
    rig.run(w -> w.door().demo());
    rig.until("the demo is open", 20, () -> rig.window.pages().size() > 1);
    return rig;
  }

  private static DeskRig open(Path directory, Path job) {
    require();
    FailOnThreadViolationRepaintManager.install();
    EventThreadWatch watch = watching == null ? EventThreadWatch.start() : watching;
    watching = watch;
    watch.reset();
    Robot robot = BasicRobot.robotWithNewAwtHierarchy();
    robot.settings().delayBetweenEvents(10);
    robot.settings().eventPostingDelay(40);
    Path prefs = directory.resolve("desk.properties");
    DeskWindow window =
        GuiActionRunner.execute(
            () -> {
              Look.prepare();
              return DeskMain.window(DeskPrefs.read(prefs), job, false);
            });
    DeskRig rig = new DeskRig(robot, window, watch, prefs);
    rig.size(1366, 768);
    return rig;
  }

  public DeskWindow window() {
    return window;
  }

  public EventThreadWatch watch() {
    return watch;
  }

  /** What is done in a window that is timed. */
  public interface Timed {
    void run() throws Exception;
  }

  /**
   * The fewest events of a round that held the event thread for longer than {@link
   * EventThreadWatch#LIMIT_MILLIS}: what the window itself holds up shows in every round; another
   * program that had the processors, in one of them.
   *
   * @param enough rounds end where there are no more than so many
   */
  public long fewestStalls(long enough, Timed round) throws Exception {
    long fewest = Long.MAX_VALUE;
    for (int i = 0; i < TIMED_ROUNDS && fewest > enough; i++) {
      watch.reset();
      round.run();
      fewest = Math.min(fewest, watch.stalls());
    }
    return fewest;
  }

  public Robot robot() {
    return robot;
  }

  public Visit visit() {
    return get(() -> window.door().visit().orElseThrow());
  }

  /** Where this window keeps its user's likings. */
  Path prefs() {
    return prefs;
  }

  /** On the event thread. */
  public void run(Consumer<DeskWindow> task) {
    GuiActionRunner.execute(() -> task.accept(window));
  }

  /** On the event thread. */
  public <T> T get(Callable<T> task) {
    return GuiActionRunner.execute(task);
  }

  /**
   * Waits; what is asked is asked on the event thread, where {@link #find} and all that waits would
   * wait for itself.
   */
  public void until(String what, int seconds, BooleanSupplier holds) {
    Pause.pause(
        new Condition(what) {
          @Override
          public boolean test() {
            return GuiActionRunner.execute(holds::getAsBoolean);
          }
        },
        Timeout.timeout(seconds * 1000L));
  }

  /** Of the whole frame, at the top left of the screen. */
  public void size(int width, int height) {
    run(
        w -> {
          w.frame().setLocation(0, 0);
          w.frame().setSize(width, height);
        });
    robot.waitForIdle();
  }

  public void look(Theme theme, int percent) {
    run(
        w -> {
          w.theme(theme);
          w.percent(percent);
        });
    robot.waitForIdle();
  }

  /** Goes to a page by its key on the keyboard. */
  public void page(String key) {
    int number = 1 + get(() -> window.pages().stream().map(Page::key).toList().indexOf(key));
    press("alt " + number);
    until("page " + key, 10, () -> window.current() != null && window.current().key().equals(key));
  }

  /** Presses a key as {@link KeyStroke#getKeyStroke(String)} reads it: 'F5', 'ctrl Z', 'alt 3'. */
  public void press(String stroke) {
    KeyStroke key = KeyStroke.getKeyStroke(stroke);
    List<Integer> held = new ArrayList<>();
    if (stroke.contains("ctrl ")) {
      held.add(KeyEvent.VK_CONTROL);
    }
    if (stroke.contains("alt ")) {
      held.add(KeyEvent.VK_ALT);
    }
    if (stroke.contains("shift ")) {
      held.add(KeyEvent.VK_SHIFT);
    }
    held.forEach(robot::pressKey);
    robot.pressAndReleaseKey(key.getKeyCode());
    for (int i = held.size() - 1; i >= 0; i--) {
      robot.releaseKey(held.get(i));
    }
    robot.waitForIdle();
  }

  /** Types into a text component, in the place of what it has. */
  public void type(String name, String text) {
    JTextComponent field = find(name, JTextComponent.class);
    scrollTo(field);
    robot.focusAndWaitForFocusGain(field);
    press("ctrl A");
    // What no key is on goes straight to the field, past keys that are still on their way.
    for (String part : text.split(BY_KEY_OR_NOT)) {
      robot.enterText(part);
      robot.waitForIdle();
    }
  }

  /** Clicks with the pointer. */
  public void click(String name) {
    Component component = find(name, Component.class);
    scrollTo(component);
    robot.click(component, MouseButton.LEFT_BUTTON, 1);
    robot.waitForIdle();
  }

  private void scrollTo(Component component) {
    run(
        w -> {
          if (component instanceof JComponent c) {
            c.scrollRectToVisible(new Rectangle(0, 0, c.getWidth(), c.getHeight()));
          }
        });
    robot.waitForIdle();
  }

  /** A component in view, by its name; waits some seconds for it. */
  public <T extends Component> T find(String name, Class<T> type) {
    List<T> found = new ArrayList<>();
    until("component " + name, 10, () -> collect(window.frame(), name, type, found));
    return found.get(0);
  }

  /** Whether a component of that name is in view. */
  public boolean shows(String name) {
    return get(() -> collect(window.frame(), name, Component.class, new ArrayList<>()));
  }

  private static <T extends Component> boolean collect(
      Container from, String name, Class<T> type, List<T> found) {
    for (Component component : from.getComponents()) {
      if (!component.isVisible()) {
        continue;
      }
      if (name.equals(component.getName()) && type.isInstance(component)) {
        found.add(type.cast(component));
        return true;
      }
      if (component instanceof Container inner && collect(inner, name, type, found)) {
        return true;
      }
    }
    return false;
  }

  /** The words of a button, text component or label in view. */
  public String text(String name) {
    Component component = find(name, Component.class);
    return get(
        () ->
            component instanceof JTextComponent text
                ? text.getText()
                : component instanceof AbstractButton button
                    ? button.getText()
                    : component.getAccessibleContext().getAccessibleName());
  }

  /** The band's words. */
  public String next() {
    return get(
        () -> {
          List<NextButton> found = new ArrayList<>();
          collect(window.frame(), "band.next", NextButton.class, found);
          return found.get(0).words();
        });
  }

  /** A page's word on the rail. */
  public String state(String key) {
    return get(
        () ->
            window.pages().stream()
                .filter(p -> p.key().equals(key))
                .map(Page::state)
                .findFirst()
                .orElseThrow());
  }

  /** All notices in view, as 'TROUBLE: words' lines. */
  public String notices() {
    StringBuilder text = new StringBuilder();
    run(
        w ->
            w.notices()
                .shown()
                .forEach(n -> text.append(n.kind()).append(": ").append(n.words()).append('\n')));
    return text.toString();
  }

  /** What is seen now, into {@code NAME-1366x768-dark.png}. */
  public Path shot(String name) {
    robot.waitForIdle();
    Rectangle bounds = get(() -> window.frame().getBounds());
    String light = get(() -> window.theme().key());
    BufferedImage image =
        new org.assertj.swing.image.ScreenshotTaker().takeScreenshotOf(window.frame());
    String file =
        String.format(Locale.ROOT, "%s-%dx%d-%s.png", name, bounds.width, bounds.height, light);
    try {
      Files.createDirectories(SCREENSHOTS);
      Path path = SCREENSHOTS.resolve(file);
      ImageIO.write(image, "png", path.toFile());
      return path;
    } catch (IOException e) {
      throw new IllegalStateException("no screenshot, file=" + file, e);
    }
  }

  /** At 1366×768 in the light; with {@code -Dbellwire.shots=all} in the dark and larger too. */
  public void shots(String name) {
    if (!"all".equals(System.getProperty("bellwire.shots"))) {
      shot(name);
      return;
    }
    for (Theme theme : List.of(Theme.LIGHT, Theme.DARK)) {
      look(theme, 100);
      for (Dimension size : SIZES) {
        size(size.width, size.height);
        shot(name);
      }
    }
    look(Theme.LIGHT, 100);
    size(1366, 768);
  }

  /** Closes the window as a person does, and waits until all is let go. */
  @Override
  public void close() {
    try {
      run(DeskWindow::close);
      window.closed().get(30, java.util.concurrent.TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (java.util.concurrent.ExecutionException | java.util.concurrent.TimeoutException e) {
      throw new AssertionError("the window does not close", e);
    } finally {
      robot.cleanUp();
    }
  }
}
