package bellwire.app.desk;

import java.awt.CardLayout;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javax.swing.JButton;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;

/** The ways to a job: a new one, one from a file, one of the last, the demo. */
final class JobChoice {
  private static final String SUFFIX = ".bellwire";

  private final DeskWindow window;
  private final JPanel place;
  private final CardLayout cards;

  /**
   * @param place what the choice of a file takes the place of; its first card is shown again after
   */
  JobChoice(DeskWindow window, JPanel place, CardLayout cards) {
    this.window = window;
    this.place = place;
    this.cards = cards;
  }

  /** A row of buttons. */
  JPanel buttons() {
    JPanel row = new JPanel(new MigLayout("insets 0, gap 8"));
    row.add(button("visit.new", "New job…", this::make));
    row.add(button("visit.open", "Open a job…", this::open));
    row.add(button("visit.demo", "Demo", window.door()::demo));
    return row;
  }

  /** Adds a button for each of the jobs opened last that is still there. */
  void recent(JPanel into, List<Path> recent) {
    var unused =
        CompletableFuture.supplyAsync(
                () -> recent.stream().filter(Files::isRegularFile).collect(Collectors.toList()))
            .thenAccept(there -> SwingUtilities.invokeLater(() -> fill(into, there)));
  }

  private void fill(JPanel into, List<Path> there) {
    into.removeAll();
    for (int i = 0; i < there.size(); i++) {
      Path job = there.get(i);
      JButton button = button("visit.recent" + i, words(job), () -> window.openJob(job));
      button.setToolTipText(job.toString());
      button.setHorizontalAlignment(JButton.LEADING);
      into.add(button, "growx");
    }
    into.revalidate();
    into.repaint();
  }

  static String words(Path job) {
    return String.valueOf(job.getFileName()).replaceFirst("\\.bellwire$", "")
        + "   ("
        + job.toAbsolutePath().getParent()
        + ")";
  }

  /** Chooses a name for a new job. */
  void make() {
    choose(
        new FileChoice(
            "Where shall the new job be kept?",
            FileChoice.Mode.SAVE,
            List.of(SUFFIX),
            jobs(),
            LocalDate.now(ZoneId.systemDefault()) + "-visit" + SUFFIX,
            file -> {
              back();
              window.openJob(withSuffix(file));
            },
            this::back));
  }

  /** Chooses a job that is there. */
  void open() {
    choose(
        new FileChoice(
            "Which job?",
            FileChoice.Mode.OPEN,
            List.of(SUFFIX),
            jobs(),
            "",
            file -> {
              back();
              window.openJob(file);
            },
            this::back));
  }

  /** Chooses another file than a job. */
  void choose(String title, List<String> suffixes, Consumer<Path> chosen) {
    choose(
        new FileChoice(
            title,
            FileChoice.Mode.OPEN,
            suffixes,
            jobs(),
            "",
            file -> {
              back();
              chosen.accept(file);
            },
            this::back));
  }

  private static Path withSuffix(Path file) {
    return String.valueOf(file.getFileName()).contains(".")
        ? file
        : file.resolveSibling(file.getFileName() + SUFFIX);
  }

  private Path jobs() {
    List<Path> recent = window.recent();
    Path folder = recent.isEmpty() ? null : recent.get(0).getParent();
    return folder != null ? folder : Path.of(System.getProperty("user.home"));
  }

  private void choose(FileChoice choice) {
    if (place.getComponentCount() > 1) {
      place.remove(1);
    }
    place.add(choice, "files");
    cards.show(place, "files");
    choice.focus();
  }

  private void back() {
    if (place.getComponentCount() > 1) {
      place.remove(1);
      cards.first(place);
      place.revalidate();
      place.repaint();
    }
  }

  private static JButton button(String name, String words, Runnable run) {
    JButton button = new JButton(words);
    button.setName(name);
    button.addActionListener(e -> run.run());
    return button;
  }
}
