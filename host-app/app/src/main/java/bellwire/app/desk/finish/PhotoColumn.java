package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import java.awt.Color;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.UnsupportedFlavorException;
import java.awt.event.ActionEvent;
import java.awt.image.BufferedImage;
import java.io.File;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.Icon;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import javax.swing.TransferHandler;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** The photographs of one stage: a list, a button, and a place to drop files on. */
final class PhotoColumn extends JPanel {
  private static final int WIDTH = 150;
  private static final int HEIGHT = 112;

  private final DeskContext ctx;
  private final Thumbnails thumbnails;
  private final DefaultListModel<Photo> photos = new DefaultListModel<>();
  private final JList<Photo> list = new JList<>(photos);
  private final JLabel count = new JLabel();
  private final Stage stage;
  private final Asked asked;
  private boolean filling;

  /** What a column asks of the page. */
  interface Asked {
    void choose(Stage stage);

    void dropped(Stage stage, List<Path> files);

    void remove(Photo photo);

    void selected(PhotoColumn column, @Nullable Photo photo);
  }

  PhotoColumn(DeskContext ctx, Thumbnails thumbnails, Stage stage, Asked asked) {
    super(new MigLayout("insets 0, gap 8, wrap 1", "[grow,fill]", "[][grow,fill]"));
    this.ctx = ctx;
    this.thumbnails = thumbnails;
    this.stage = stage;
    this.asked = asked;
    String key = stage == Stage.AS_FOUND ? "as-found" : "as-left";
    JButton add = new JButton("Add " + words(stage) + "…");
    add.setName("finish.add-" + key);
    add.addActionListener(e -> asked.choose(stage));
    list.setName("finish.photos-" + key);
    list.getAccessibleContext().setAccessibleName("Photographs " + words(stage));
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Renderer());
    list.addListSelectionListener(
        e -> {
          if (!filling) {
            asked.selected(this, list.getSelectedValue());
          }
        });
    bind("INSERT", photo -> asked.choose(stage), false);
    bind("DELETE", asked::remove, true);
    JPanel head = new JPanel(new MigLayout("insets 0", "[grow]8[]"));
    head.add(count);
    head.add(add);
    JScrollPane view = new JScrollPane(list);
    Drop drop = new Drop(files -> asked.dropped(stage, files));
    list.setTransferHandler(drop);
    setTransferHandler(drop);
    add(head);
    add(view);
  }

  static String words(Stage stage) {
    return stage == Stage.AS_FOUND ? "as found" : "as left";
  }

  private void bind(String key, Consumer<Photo> run, boolean needsOne) {
    list.getInputMap().put(KeyStroke.getKeyStroke(key), key);
    list.getActionMap()
        .put(
            key,
            new AbstractAction() {
              @Override
              public void actionPerformed(ActionEvent e) {
                Photo photo = list.getSelectedValue();
                if (photo != null || !needsOne) {
                  run.accept(photo);
                }
              }
            });
  }

  /** Shows those of this stage; the selection stays where it can. */
  void show(List<Photo> all) {
    Photo before = list.getSelectedValue();
    filling = true; // what is selected stays so; a caption that is being typed is not disturbed
    photos.clear();
    all.stream().filter(p -> p.stage() == stage).forEach(photos::addElement);
    String what = photos.getSize() == 1 ? " photograph " : " photographs ";
    count.setText(photos.getSize() + what + words(stage));
    if (before != null) {
      select(before.id());
    }
    filling = false;
    if (before != null) {
      asked.selected(this, list.getSelectedValue());
    }
  }

  void select(long photo) {
    for (int i = 0; i < photos.getSize(); i++) {
      if (photos.get(i).id() == photo) {
        list.setSelectedIndex(i);
        list.ensureIndexIsVisible(i);
      }
    }
  }

  void clearSelection() {
    list.clearSelection();
  }

  @Nullable Photo selected() {
    return list.getSelectedValue();
  }

  void focus() {
    list.requestFocusInWindow();
  }

  private final class Renderer extends DefaultListCellRenderer {
    @Override
    public Component getListCellRendererComponent(
        JList<?> of, Object value, int index, boolean selected, boolean focused) {
      JLabel label =
          (JLabel) super.getListCellRendererComponent(of, value, index, selected, focused);
      if (value instanceof Photo photo) {
        boolean none = thumbnails.unreadable(photo.id());
        String caption = photo.caption().isEmpty() ? "no caption yet" : photo.caption();
        label.setText(none ? caption + " (cannot be shown)" : caption);
        label.setIcon(new Picture(thumbnails.of(photo.id())));
        label.setIconTextGap((int) (12 * ctx.scale()));
      }
      return label;
    }
  }

  /** In a box of one size, empty while the picture is on its way. */
  private final class Picture implements Icon {
    private final @Nullable BufferedImage image;

    Picture(@Nullable BufferedImage image) {
      this.image = image;
    }

    private Dimension size() {
      return new Dimension((int) (WIDTH * ctx.scale()), (int) (HEIGHT * ctx.scale()));
    }

    @Override
    public int getIconWidth() {
      return size().width;
    }

    @Override
    public int getIconHeight() {
      return size().height;
    }

    @Override
    public void paintIcon(Component on, Graphics g, int x, int y) {
      Dimension box = size();
      Color line = ctx.palette().line();
      g.setColor(line);
      g.drawRect(x, y, box.width - 1, box.height - 1);
      if (image != null) {
        double f =
            Math.min(
                (box.width - 2) / (double) image.getWidth(),
                (box.height - 2) / (double) image.getHeight());
        int w = (int) (image.getWidth() * f);
        int h = (int) (image.getHeight() * f);
        g.drawImage(image, x + (box.width - w) / 2, y + (box.height - h) / 2, w, h, null);
      }
    }
  }

  /** Files from the computer's own windows. */
  private static final class Drop extends TransferHandler {
    private final transient Consumer<List<Path>> taker;

    Drop(Consumer<List<Path>> taker) {
      this.taker = taker;
    }

    @Override
    public boolean canImport(TransferSupport support) {
      return support.isDataFlavorSupported(DataFlavor.javaFileListFlavor);
    }

    @Override
    public boolean importData(TransferSupport support) {
      try {
        List<Path> files = new ArrayList<>();
        Object dropped = support.getTransferable().getTransferData(DataFlavor.javaFileListFlavor);
        if (dropped instanceof List<?> all) {
          for (Object one : all) {
            if (one instanceof File file) {
              files.add(file.toPath());
            }
          }
        }
        taker.accept(files);
        return !files.isEmpty();
      } catch (UnsupportedFlavorException | IOException e) {
        return false;
      }
    }
  }
}
