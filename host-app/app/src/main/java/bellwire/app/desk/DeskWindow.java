package bellwire.app.desk;

import bellwire.app.desk.Notices.Choice;
import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import javax.swing.BorderFactory;
import javax.swing.JFrame;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingUtilities;
import javax.swing.WindowConstants;
import org.jspecify.annotations.Nullable;

/**
 * The window: rail, band, the page in view, notices, progress. Used on the event thread; opening
 * and closing of job files is {@link JobDoor}'s.
 */
public final class DeskWindow {
  /** Of the window's width in type sizes, below which the rail leaves out its words of state. */
  private static final int NARROW_EMS = 70;

  private final DeskPrefs prefs;
  private final Notices notices = new Notices();
  private final Progress progress = new Progress();
  private final Sounds sounds = new Sounds();
  private final Leaving leaving = new Leaving(notices, progress);
  private final JobDoor door;
  private final CompletableFuture<Void> closed = new CompletableFuture<>();

  private final JFrame frame = new JFrame("Bellwire");
  private final PagesView place = new PagesView();
  private final Band band;
  private final Rail rail;
  private final RailFoot foot;
  private final NoticesPanel noticesPanel;
  private final DeskKeys keys = new DeskKeys(frame.getRootPane());

  private Theme theme;
  private int percent;
  private List<Page> pages = List.of();
  private @Nullable Page current;
  private @Nullable KeysPanel keysPanel;
  private @Nullable DeskContext ctx;

  /**
   * @param prefs read before; saved with each change
   */
  DeskWindow(DeskPrefs prefs) {
    this.prefs = prefs;
    theme = Theme.of(prefs.get("theme", "light"));
    percent = nearest(prefs.number("percent", 100));
    sounds.on(prefs.get("sound", "off").equals("on"));
    Look.apply(theme, percent);
    door = new JobDoor(this, prefs);
    band = new Band(() -> theme.palette());
    foot = new RailFoot(this, "rail");
    rail = new Rail(this::go, foot);
    noticesPanel = new NoticesPanel(notices, () -> theme.palette());
    arrange();
    new DeskBindings(this).bind(keys);
    foot.show(theme, percent, sounds.on());
  }

  private static int nearest(int wanted) {
    int best = 100;
    for (int step : RailFoot.PERCENT) {
      if (Math.abs(step - wanted) < Math.abs(best - wanted)) {
        best = step;
      }
    }
    return best;
  }

  private void arrange() {
    JPanel below = new JPanel(new BorderLayout());
    below.add(noticesPanel, BorderLayout.CENTER);
    below.add(new ProgressStrip(progress), BorderLayout.SOUTH);
    JPanel main = new JPanel(new BorderLayout());
    main.add(band, BorderLayout.NORTH);
    main.add(place, BorderLayout.CENTER);
    main.add(below, BorderLayout.SOUTH);
    JScrollPane railView = new JScrollPane(rail, 20, 31);
    railView.setBorder(BorderFactory.createEmptyBorder());
    railView.getVerticalScrollBar().setUnitIncrement(30);
    frame.setName("desk");
    frame.add(railView, BorderLayout.WEST);
    frame.add(main, BorderLayout.CENTER);
    frame.setMinimumSize(new Dimension(800, 500));
    frame.setDefaultCloseOperation(WindowConstants.DO_NOTHING_ON_CLOSE);
    frame.addWindowListener(
        new WindowAdapter() {
          @Override
          public void windowClosing(WindowEvent e) {
            askToClose();
          }
        });
    frame.addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            fit();
          }
        });
  }

  /** Where it was left, as far as this screen reaches. */
  void open() {
    WindowPlace.take(frame, prefs);
    frame.setVisible(true);
  }

  /** Pages of another visit, or of none; the page last seen comes into view. */
  void show(List<Page> shown, @Nullable DeskContext context, Path file) {
    leave();
    letGo();
    pages = shown;
    ctx = context;
    current = null;
    place.pages(pages);
    rail.show(pages);
    frame.setTitle(file.toString().isEmpty() ? "Bellwire" : file.getFileName() + " – Bellwire");
    interlock(InterlockState.NOT_CONNECTED);
    pages.forEach(rail::state);
    String last = context == null ? "" : context.left("page");
    go(pages.stream().anyMatch(p -> p.key().equals(last)) ? last : pages.get(0).key());
    fit();
  }

  void go(String key) {
    for (Page page : pages) {
      if (page.key().equals(key)) {
        leave();
        current = page;
        place.show(key);
        rail.select(page);
        page.entered();
        changed(page);
        SwingUtilities.invokeLater(() -> focus(page));
        if (ctx != null) {
          ctx.left("page", key);
        }
        return;
      }
    }
    throw new IllegalArgumentException("no page of that key, key=" + key);
  }

  /** Wherever one comes from, the keyboard is on the page then. */
  private void focus(Page page) {
    if (page != current || place.isOver()) {
      return;
    }
    Component wanted = page.focus();
    Component first =
        wanted != null
            ? wanted
            : frame.getFocusTraversalPolicy().getFirstComponent(page.component());
    if (first != null) {
      first.requestFocusInWindow();
    }
  }

  private void leave() {
    Page page = current;
    if (page != null) {
      flush();
      page.left();
      rail.state(page);
      current = null;
    }
  }

  private void letGo() {
    if (ctx != null) {
      ctx.close();
    }
  }

  /** What is being typed counts as typed. */
  void flush() {
    if (ctx != null) {
      ctx.flush();
    }
  }

  void changed(Page page) {
    if (!pages.contains(page)) {
      return;
    }
    rail.state(page);
    if (page == current) {
      band.show(page.next());
    }
  }

  void interlock(InterlockState state) {
    if (state.kind() == InterlockState.Kind.VOLTAGE
        && band.interlock().kind() != InterlockState.Kind.VOLTAGE) {
      sounds.play(Sounds.Tone.VOLTAGE);
    }
    band.show(state);
  }

  /** F5. */
  void act() {
    flush();
    band.act();
  }

  /** Esc: the list of keys first, then what runs. */
  void escape() {
    if (place.isOver()) {
      hideKeys();
    } else {
      progress.cancel();
    }
  }

  void showKeys() {
    if (!place.isOver()) {
      RailFoot look = new RailFoot(this, "keys").withoutKeys();
      look.show(theme, percent, sounds.on());
      KeysPanel list = new KeysPanel(keys.keys(), look, this::hideKeys);
      keysPanel = list;
      JScrollPane view = new JScrollPane(list);
      view.setBorder(BorderFactory.createEmptyBorder());
      place.over(view);
      list.focus();
    }
  }

  private void hideKeys() {
    if (place.isOver()) {
      place.back();
      keysPanel = null;
      if (current != null) {
        focus(current);
      }
    }
  }

  void page(int number) {
    if (number <= pages.size()) {
      hideKeys();
      go(pages.get(number - 1).key());
    }
  }

  void focusRail() {
    rail.focus();
  }

  void focusNotices() {
    noticesPanel.focus();
  }

  void undo() {
    flush();
    if (ctx != null) {
      ctx.undo()
          .undo()
          .ifPresentOrElse(
              edit -> told("Taken back: ", edit), () -> notices.note("Nothing to take back."));
    }
  }

  void redo() {
    flush();
    if (ctx != null) {
      ctx.undo()
          .redo()
          .ifPresentOrElse(
              edit -> told("Done again: ", edit), () -> notices.note("Nothing to do again."));
    }
  }

  private void told(String how, Undo.Edit edit) {
    if (current == null || !current.key().equals(edit.page())) {
      go(edit.page());
    }
    notices.note(how + edit.words());
  }

  void theme(Theme wanted) {
    theme = wanted;
    prefs.put("theme", wanted.key());
    look();
  }

  /** 100 to 200. */
  void percent(int wanted) {
    percent = nearest(wanted);
    prefs.put("percent", percent);
    look();
  }

  void bigger(int steps) {
    int at = List.of(RailFoot.PERCENT).indexOf(percent) + steps;
    percent(RailFoot.PERCENT[Math.max(0, Math.min(at, RailFoot.PERCENT.length - 1))]);
  }

  void sound(boolean wanted) {
    sounds.on(wanted);
    sounds.play(Sounds.Tone.DONE);
    prefs.put("sound", wanted ? "on" : "off");
    shown();
    door.save();
  }

  private void shown() {
    foot.show(theme, percent, sounds.on());
    if (place.isOver() && keysPanel != null) {
      keysPanel.look().show(theme, percent, sounds.on());
    }
  }

  /** In two events, for neither is to hold the window long: first the frame, then the page. */
  private void look() {
    place.takeOut();
    Look.apply(theme, percent);
    shown();
    fit();
    frame.repaint();
    SwingUtilities.invokeLater(
        () -> {
          place.bringBack();
          if (ctx != null) {
            ctx.lookChanged();
          }
          frame.validate();
          frame.repaint();
        });
    door.save();
  }

  private void fit() {
    boolean narrow = frame.getWidth() < NARROW_EMS * foot.getFont().getSize();
    rail.fit(narrow, frame.getContentPane().getHeight());
    band.narrow(narrow);
    frame.validate();
  }

  /** As a person closes it: asks first where something would be broken off or lost. */
  void askToClose() {
    flush();
    leaving(this::close);
  }

  /** Does what takes the job out of the window, after a question where that loses something. */
  void leaving(Runnable go) {
    if (leaving.ask(door.visit().orElse(null), go)) {
      noticesPanel.focus();
    }
  }

  /** Asks nothing: what is typed is kept, what runs is ended or left to the board. */
  public void close() {
    flush();
    leave();
    letGo();
    WindowPlace.remember(frame, prefs);
    band.show(NextAction.words("Closing: the board is let go"));
    door.close(
        () -> {
          frame.dispose();
          closed.complete(null);
        });
  }

  /** Completes when the window has gone and everything is let go. */
  public CompletableFuture<Void> closed() {
    return closed;
  }

  /** Another job file; the one in hand is let go when the other is open. */
  public void openJob(Path file) {
    door.open(file);
  }

  void inUse(String words) {
    notices.ask(
        words,
        new Choice("Choose another file", door::another),
        new Choice("Try again", door::again));
  }

  public JFrame frame() {
    return frame;
  }

  Theme theme() {
    return theme;
  }

  double scale() {
    return percent / 100.0;
  }

  Notices notices() {
    return notices;
  }

  Progress progress() {
    return progress;
  }

  Sounds sounds() {
    return sounds;
  }

  /** Jobs opened last, the newest first. */
  List<Path> recent() {
    return prefs.recent();
  }

  JobDoor door() {
    return door;
  }

  /** Of the job that is shown; null while there is none. */
  @Nullable DeskContext context() {
    return ctx;
  }

  /** The page in view. */
  @Nullable Page current() {
    return current;
  }

  List<Page> pages() {
    return pages;
  }
}
