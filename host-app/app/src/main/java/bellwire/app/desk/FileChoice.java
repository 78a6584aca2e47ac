package bellwire.app.desk;

import java.awt.Component;
import java.awt.event.ActionEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;

/**
 * Chooses a file inside the window: a name to type, a folder to walk through. Put it in the place
 * of what asked for it; it tells once and is then done with.
 */
public final class FileChoice extends JPanel {
  /** Whether the file is there already. */
  public enum Mode {
    OPEN,
    SAVE
  }

  private final List<String> suffixes;
  private final Consumer<Path> chosen;
  private final JTextField name = new JTextField();
  private final DefaultListModel<Folder.Entry> entries = new DefaultListModel<>();
  private final JList<Folder.Entry> list = new JList<>(entries);
  private final JLabel where = new JLabel(" ");
  private final Words trouble = new Words("");
  private Path folder;

  /**
   * @param title what is chosen: 'Open a job file'
   * @param suffixes in lower case, such as '.bellwire'; none for all files
   * @param start a file to propose, or a folder to begin in
   * @param proposed file name typed in already; may be empty
   * @param chosen told the file
   * @param cancelled told that none was chosen
   */
  public FileChoice(
      String title,
      Mode mode,
      List<String> suffixes,
      Path start,
      String proposed,
      Consumer<Path> chosen,
      Runnable cancelled) {
    super(new MigLayout("insets 16, gap 8, wrap 1", "[grow,fill]", "[][][][grow,fill][][]"));
    this.suffixes = List.copyOf(suffixes);
    this.chosen = chosen;
    folder = start.toAbsolutePath().normalize();
    setName("files");
    name.setText(proposed);
    name.setName("files.name");
    name.getAccessibleContext().setAccessibleName("Name of the file, or its whole path");
    list.setName("files.list");
    list.getAccessibleContext().setAccessibleName("Files of the folder");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Renderer());
    add(Look.bold(new JLabel(title), 20));
    add(where);
    JScrollPane view = new JScrollPane(list);
    add(line(mode, cancelled));
    add(view, "hmin 160");
    add(trouble);
    listen(cancelled);
    enter(folder);
  }

  private JPanel line(Mode mode, Runnable cancelled) {
    JPanel line = new JPanel(new MigLayout("insets 0, gap 8", "[][grow,fill][][]"));
    JButton up = button("files.up", "Folder above", () -> enter(above()));
    JButton take = button("files.take", mode == Mode.OPEN ? "Open" : "Take this name", this::take);
    JButton back = button("files.cancel", "Back", cancelled);
    line.add(up);
    line.add(name, "wmin 160");
    line.add(take);
    line.add(back);
    return line;
  }

  private static JButton button(String name, String words, Runnable run) {
    JButton button = new JButton(words);
    button.setName(name);
    button.addActionListener(e -> run.run());
    return button;
  }

  private void listen(Runnable cancelled) {
    name.addActionListener(e -> take());
    list.addListSelectionListener(
        e -> {
          Folder.Entry entry = list.getSelectedValue();
          if (entry != null && !entry.directory()) {
            name.setText(String.valueOf(entry.path().getFileName()));
          }
        });
    list.addMouseListener(
        new MouseAdapter() {
          @Override
          public void mouseClicked(MouseEvent e) {
            if (e.getClickCount() == 2) {
              into();
            }
          }
        });
    bind("ENTER", this::into);
    bind("BACK_SPACE", () -> enter(above()));
    getInputMap(WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(KeyStroke.getKeyStroke("ESCAPE"), "cancel");
    getActionMap().put("cancel", action(cancelled));
  }

  private void bind(String key, Runnable run) {
    list.getInputMap().put(KeyStroke.getKeyStroke(key), key);
    list.getActionMap().put(key, action(run));
  }

  private static AbstractAction action(Runnable run) {
    return new AbstractAction() {
      @Override
      public void actionPerformed(ActionEvent e) {
        run.run();
      }
    };
  }

  /** Puts the keyboard on the name. */
  public void focus() {
    name.requestFocusInWindow();
    name.selectAll();
  }

  private Path above() {
    Path parent = folder.getParent();
    return parent == null ? folder : parent;
  }

  private void into() {
    Folder.Entry entry = list.getSelectedValue();
    if (entry == null) {
      return;
    }
    if (entry.directory()) {
      enter(entry.path());
    } else {
      chosen.accept(entry.path());
    }
  }

  private void take() {
    String typed = name.getText().trim();
    if (typed.isEmpty()) {
      trouble.setText("Type a name, or choose a file in the list.");
      return;
    }
    try {
      chosen.accept(folder.resolve(typed).normalize());
    } catch (InvalidPathException e) {
      trouble.setText("'" + typed + "' can be no file name; take letters, figures, '-' and '_'.");
    }
  }

  private void enter(Path directory) {
    var unused =
        CompletableFuture.supplyAsync(() -> Folder.read(directory, suffixes))
            .thenAccept(read -> SwingUtilities.invokeLater(() -> show(read)));
  }

  private void show(Folder read) {
    trouble.setText(read.trouble());
    if (read.trouble().isEmpty()) {
      folder = read.path();
      where.setText(folder.toString());
      entries.clear();
      read.entries().forEach(entries::addElement);
    }
  }

  private static final class Renderer extends DefaultListCellRenderer {
    @Override
    public Component getListCellRendererComponent(
        JList<?> list, Object value, int index, boolean selected, boolean focused) {
      String words = value instanceof Folder.Entry entry ? entry.words() : String.valueOf(value);
      return super.getListCellRendererComponent(list, words, index, selected, focused);
    }
  }
}
