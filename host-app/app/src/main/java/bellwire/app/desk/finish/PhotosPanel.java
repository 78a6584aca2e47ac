package bellwire.app.desk.finish;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.FileChoice;
import bellwire.app.desk.KeptField;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.visit.Change;
import java.awt.CardLayout;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Photographs as found and as left, side by side, and the words of the one selected. */
final class PhotosPanel extends JPanel implements PhotoColumn.Asked {
  private static final String FOLDER = "finish.folder";
  private static final List<String> PICTURES = List.of(".jpg", ".jpeg", ".png");

  private final DeskContext ctx;
  private final CardLayout cards = new CardLayout();
  private final Thumbnails thumbnails;
  private final PhotoAdding adding;
  private static final int NARROW_EMS = 48;

  private final PhotoColumn found;
  private final PhotoColumn left;
  private final JTextField caption = new JTextField();
  private final JButton move = new JButton("Move to as left");
  private final JButton remove = new JButton("Remove");
  private final Runnable changed;
  private List<Photo> photos = List.of();
  private @Nullable Photo selected;
  private boolean choosing;

  PhotosPanel(DeskContext ctx, Clock clock, Runnable changed) {
    this.ctx = ctx;
    this.changed = changed;
    setLayout(cards);
    thumbnails = new Thumbnails(ctx, this::repaint);
    adding = new PhotoAdding(ctx, clock, this::arrived);
    found = new PhotoColumn(ctx, thumbnails, Stage.AS_FOUND, this);
    left = new PhotoColumn(ctx, thumbnails, Stage.AS_LEFT, this);
    add(page(), "photos");
    ctx.onChange(
        change -> {
          if (change == Change.PHOTOS) {
            load();
          }
        });
    var unused = new KeptField(ctx, caption, this::keepCaption);
    load();
  }

  private JPanel page() {
    JPanel page =
        new JPanel(
            new MigLayout("insets 10, gap 8, wrap 1, fill", "[grow,fill]", "[grow,fill,200::][]"));
    page.add(
        new Beside(NARROW_EMS, "0", new Beside.Part(found, 50, 14), new Beside.Part(left, 50, 14)),
        "wmin 0");
    page.add(words(), "wmin 0");
    return page;
  }

  private JPanel words() {
    JPanel row = new JPanel(new MigLayout("insets 0, gap 8", "[][grow,fill][][]"));
    JLabel label = new JLabel("Caption");
    label.setLabelFor(caption);
    caption.setName("finish.caption");
    caption.getAccessibleContext().setAccessibleName("Caption of the photograph selected");
    move.setName("finish.move");
    move.addActionListener(e -> move());
    remove.setName("finish.remove");
    remove.addActionListener(
        e -> {
          if (selected != null) {
            remove(selected);
          }
        });
    row.add(label);
    row.add(caption, "wmin 160");
    row.add(move);
    row.add(remove);
    show(null);
    return row;
  }

  private void load() {
    ctx.later(
        ctx.visit().ask(all -> all.photos()),
        read -> {
          photos = read;
          found.show(read);
          left.show(read);
          changed.run();
        });
  }

  List<Photo> photos() {
    return photos;
  }

  private void arrived(long photo) {
    ctx.later(
        ctx.visit().ask(all -> all.photos()),
        read -> {
          photos = read;
          found.show(read);
          left.show(read);
          found.select(photo);
          left.select(photo);
          caption.requestFocusInWindow();
        });
  }

  /** Asks for a file, in the place of the photographs. */
  @Override
  public void choose(Stage stage) {
    String last = ctx.left(FOLDER);
    Path start = Path.of(last.isEmpty() ? System.getProperty("user.home") : last);
    FileChoice choice =
        new FileChoice(
            "Which photograph " + PhotoColumn.words(stage) + "?",
            FileChoice.Mode.OPEN,
            PICTURES,
            start,
            "",
            file -> {
              back();
              Path folder = file.toAbsolutePath().getParent();
              if (folder != null) {
                ctx.left(FOLDER, folder.toString());
              }
              dropped(stage, List.of(file));
            },
            () -> {
              back();
              column(stage).focus();
            });
    add(choice, "files");
    cards.show(this, "files");
    choosing = true;
    choice.focus();
    changed.run();
  }

  boolean choosing() {
    return choosing;
  }

  private void back() {
    if (choosing) {
      choosing = false;
      remove(getComponentCount() - 1);
      cards.first(this);
      revalidate();
      repaint();
      changed.run();
    }
  }

  private PhotoColumn column(Stage stage) {
    return stage == Stage.AS_FOUND ? found : left;
  }

  @Override
  public void dropped(Stage stage, List<Path> files) {
    adding.add(stage, files);
  }

  @Override
  public void remove(Photo photo) {
    show(null);
    thumbnails.forget(photo.id());
    adding.remove(photo);
  }

  @Override
  public void selected(PhotoColumn column, @Nullable Photo photo) {
    if (photo == null) {
      if (found.selected() == null && left.selected() == null) {
        show(null);
      }
      return;
    }
    (column == found ? left : found).clearSelection();
    show(photo);
  }

  private void show(@Nullable Photo photo) {
    boolean other = photo == null || selected == null || photo.id() != selected.id();
    if (other) {
      keepCaption();
    }
    selected = photo;
    boolean one = photo != null;
    caption.setEnabled(one);
    move.setEnabled(one);
    remove.setEnabled(one);
    if (other || !caption.isFocusOwner()) {
      caption.setText(photo == null ? "" : photo.caption());
    }
    Stage to = photo != null && photo.stage() == Stage.AS_LEFT ? Stage.AS_FOUND : Stage.AS_LEFT;
    move.setText("Move to " + PhotoColumn.words(to));
  }

  private void keepCaption() {
    Photo photo = selected;
    String now = caption.getText().strip();
    if (photo != null && !now.equals(photo.caption())) {
      selected = with(photo, photo.stage(), now);
      adding.change(photo, photo.stage(), now);
    }
  }

  private void move() {
    keepCaption();
    Photo photo = selected;
    if (photo != null) {
      Stage to = photo.stage() == Stage.AS_FOUND ? Stage.AS_LEFT : Stage.AS_FOUND;
      selected = null;
      adding.change(photo, to, photo.caption());
    }
  }

  private static Photo with(Photo photo, Stage stage, String caption) {
    return new Photo(photo.id(), stage, caption, photo.atUnixMicros(), photo.mime(), photo.bytes());
  }

  void focus() {
    found.focus();
  }
}
