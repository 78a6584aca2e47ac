package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Page;
import bellwire.app.job.Checklist;
import bellwire.app.job.Stage;
import java.awt.event.KeyEvent;
import java.time.Clock;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import javax.swing.JComponent;
import javax.swing.JTabbedPane;
import org.jspecify.annotations.Nullable;

/** The seventh stop: what the craft asks for before one leaves, and photographs of it. */
public final class FinishPage implements Page {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).withZone(ZoneId.systemDefault());
  private static final String TAB = "finish.tab";
  private static final int PHOTOS = 1;

  private final DeskContext ctx;
  private final JTabbedPane tabs = new JTabbedPane();
  private final Ticks ticks;
  private final ChecklistPanel checklist;
  private final PhotosPanel photos;
  private boolean ready;

  public FinishPage(DeskContext ctx) {
    this(ctx, Clock.systemUTC());
  }

  /**
   * @param clock of when something was ticked or added
   */
  FinishPage(DeskContext ctx, Clock clock) {
    this.ctx = ctx;
    ticks = new Ticks(ctx, clock, this::changed);
    checklist = new ChecklistPanel(ctx, ticks);
    photos = new PhotosPanel(ctx, clock, this::changed);
    tabs.setName("finish.tabs");
    tabs.getAccessibleContext().setAccessibleName("Checklist and photographs");
    tabs.addTab("Checklist", checklist);
    tabs.addTab("Photographs", photos);
    tabs.setMnemonicAt(0, KeyEvent.VK_C);
    tabs.setMnemonicAt(PHOTOS, KeyEvent.VK_P);
    tabs.setSelectedIndex(ctx.left(TAB).equals("photos") ? PHOTOS : 0);
    tabs.addChangeListener(
        e -> ctx.left(TAB, tabs.getSelectedIndex() == PHOTOS ? "photos" : "checklist"));
    ready = true;
    changed();
  }

  private void changed() {
    if (ready) {
      checklist.refresh();
      tabs.setTitleAt(0, "Checklist " + ticks.settled() + " of " + Checklist.items().size());
      tabs.setTitleAt(PHOTOS, "Photographs " + photos.photos().size());
      ctx.changed(this);
    }
  }

  @Override
  public String key() {
    return "finish";
  }

  @Override
  public String title() {
    return "Finish";
  }

  @Override
  public JComponent component() {
    return tabs;
  }

  @Override
  public void entered() {
    changed();
  }

  @Override
  public @Nullable JComponent focus() {
    return tabs.getSelectedIndex() == PHOTOS ? null : checklist.focus();
  }

  @Override
  public void left() {}

  @Override
  public NextAction next() {
    if (photos.choosing()) {
      return NextAction.words("Choose the photograph");
    }
    Optional<Checklist.Item> open = ticks.firstOpen();
    if (open.isPresent()) {
      return NextAction.of("Look: " + open.get().words(), () -> look(open.get()));
    }
    if (photos.photos().stream().noneMatch(p -> p.stage() == Stage.AS_LEFT)) {
      return NextAction.of("Photograph it as left, and add the picture", this::photograph);
    }
    return NextAction.of("Go on to the report", () -> ctx.go("report"));
  }

  /** Leads there and no further: how it stands is said on the item, by its own key or button. */
  private void look(Checklist.Item item) {
    tabs.setSelectedIndex(0);
    checklist.select(item);
    checklist.focus().requestFocusInWindow();
  }

  private void photograph() {
    tabs.setSelectedIndex(PHOTOS);
    photos.choose(Stage.AS_LEFT);
  }

  @Override
  public String state() {
    long settled = ticks.settled();
    int all = Checklist.items().size();
    if (settled == 0) {
      return "not begun";
    }
    if (settled < all) {
      return settled + " of " + all;
    }
    long not = ticks.notDone();
    return not == 0 ? "done " + TIME.format(ticks.last()) : not + " not done";
  }
}
