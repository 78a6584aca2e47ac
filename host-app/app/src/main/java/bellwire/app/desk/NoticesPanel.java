package bellwire.app.desk;

import bellwire.app.desk.Notices.Choice;
import bellwire.app.desk.Notices.Kind;
import bellwire.app.desk.Notices.Notice;
import bellwire.app.drawing.Palette;
import java.awt.Dimension;
import java.util.List;
import java.util.function.Supplier;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.UIManager;
import net.miginfocom.swing.MigLayout;

/** Below every page: what the desk has to say, newest on top; scrolled where it is much. */
final class NoticesPanel extends JScrollPane {
  /** In lines of ordinary type. */
  private static final int MOST_LINES = 9;

  private final Notices notices;
  private final Supplier<Palette> palette;
  private final JPanel rows = new RowsPanel();

  NoticesPanel(Notices notices, Supplier<Palette> palette) {
    this.notices = notices;
    this.palette = palette;
    setName("notices");
    setViewportView(rows);
    setHorizontalScrollBarPolicy(HORIZONTAL_SCROLLBAR_NEVER);
    getAccessibleContext().setAccessibleName("Notices");
    rows.getAccessibleContext().setAccessibleName("Notices");
    notices.listen(this::fill);
    fill();
  }

  private void fill() {
    boolean answering = isFocusWithin();
    rows.removeAll();
    List<Notice> shown = notices.shown();
    for (int i = shown.size() - 1; i >= 0; i--) {
      rows.add(row(shown.get(i)), "growx");
    }
    setVisible(!shown.isEmpty());
    revalidate();
    repaint();
    if (answering || (!shown.isEmpty() && shown.get(shown.size() - 1).kind() == Kind.QUESTION)) {
      focus();
    }
  }

  private boolean isFocusWithin() {
    var owner = java.awt.KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
    return owner != null && javax.swing.SwingUtilities.isDescendingFrom(owner, this);
  }

  /** Puts the keyboard on the newest notice's first button. */
  void focus() {
    if (rows.getComponentCount() > 0 && rows.getComponent(0) instanceof JPanel row) {
      for (var component : row.getComponents()) {
        if (component instanceof JButton button) {
          button.requestFocusInWindow();
          return;
        }
      }
    }
  }

  private JPanel row(Notice notice) {
    JPanel row =
        new JPanel(new MigLayout("insets 4 12 4 8, gap 8 4, hidemode 3", "[][grow,fill][]", "[]"));
    row.setName("notice." + word(notice.kind()));
    int size = getFont().getSize() * 8 / 5;
    JLabel label =
        new JLabel(capital(notice.kind()), new Mark(notice.kind(), palette, size), JLabel.LEADING);
    row.add(Look.bold(label, 15), "aligny top, gaptop 6");
    row.add(new Words(notice.words()), "growx, gaptop 6");
    if (notice.choices().isEmpty()) {
      row.add(button("Dismiss", () -> notices.dismiss(notice)));
    }
    for (Choice choice : notice.choices()) {
      row.add(
          button(
              choice.words(),
              () -> {
                notices.dismiss(notice);
                choice.run().run();
              }));
    }
    return row;
  }

  private static JButton button(String words, Runnable run) {
    JButton button = new JButton(words);
    button.setName("notice." + words.toLowerCase(java.util.Locale.ROOT).replace(' ', '-'));
    button.addActionListener(e -> run.run());
    return button;
  }

  private static String word(Kind kind) {
    return kind.name().toLowerCase(java.util.Locale.ROOT);
  }

  private static String capital(Kind kind) {
    String word = word(kind);
    return Character.toUpperCase(word.charAt(0)) + word.substring(1);
  }

  @Override
  public Dimension getPreferredSize() {
    Dimension wanted = super.getPreferredSize();
    int most = getFont().getSize() * 3 / 2 * MOST_LINES;
    return new Dimension(wanted.width, Math.min(wanted.height, most));
  }

  /** Its place grows and shrinks with what is in it. */
  @Override
  public boolean isValidateRoot() {
    return false;
  }

  @Override
  public void updateUI() {
    super.updateUI();
    setBorder(
        BorderFactory.createMatteBorder(1, 0, 0, 0, UIManager.getColor("Separator.foreground")));
    if (rows != null) {
      fill();
    }
  }

  /** As wide as the view, so that words wrap. */
  private static final class RowsPanel extends JPanel implements javax.swing.Scrollable {
    RowsPanel() {
      super(new MigLayout("insets 2, gap 0, wrap 1", "[grow,fill]"));
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
      return getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(
        java.awt.Rectangle visible, int orientation, int direction) {
      return getFont().getSize() * 2;
    }

    @Override
    public int getScrollableBlockIncrement(
        java.awt.Rectangle visible, int orientation, int direction) {
      return visible.height;
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
      return true;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
      return false;
    }
  }
}
