package bellwire.app.desk.report;

import bellwire.app.desk.DeskContext;
import bellwire.app.document.page.Paper;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import javax.swing.JScrollPane;
import javax.swing.Timer;
import net.miginfocom.swing.MigLayout;

/** The report's pages as they will be printed: turned, zoomed, made in the background. */
final class PreviewPanel extends JPanel implements PageSheet.Asked {
  private static final double[] ZOOMS = {0, 0.5, 0.75, 1, 1.25, 1.5, 2, 3};

  /** On screens of 96 pixels an inch. */
  private static final double PIXELS_A_POINT = 96 / 72.0;

  private static final int SOON_MILLIS = 150;

  private final DeskContext ctx;
  private final Printer printer;
  private final PageSheet sheet;
  private final JScrollPane view;
  private final JLabel at = new JLabel(" ");
  private final JLabel zoomed = new JLabel("whole width");
  private final JProgressBar busy = new JProgressBar();
  private final JButton back = new JButton("Page back");
  private final JButton on = new JButton("Page on");
  private final Timer resized = new Timer(SOON_MILLIS, e -> draw(false));
  private Paper paper = Paper.A4;
  private int pages;
  private int page;
  private int zoom;
  private int asked;

  PreviewPanel(DeskContext ctx, Printer printer) {
    super(new MigLayout("insets 0, gap 8, wrap 1", "[grow,fill]", "[][grow,fill]"));
    this.ctx = ctx;
    this.printer = printer;
    sheet = new PageSheet(ctx, this);
    view = new JScrollPane(sheet);
    view.getVerticalScrollBar().setUnitIncrement(40);
    add(bar());
    add(view, "hmin 200");
    resized.setRepeats(false);
    view.addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            if (zoom == 0 && pages > 0) {
              resized.restart();
            }
          }
        });
    ctx.onLook(resized::restart);
    busy.setIndeterminate(true);
    busy.setVisible(false);
    busy.getAccessibleContext().setAccessibleName("The pages are being set");
    buttons();
  }

  private JPanel bar() {
    JPanel bar = new JPanel(new MigLayout("insets 0, gap 8, hidemode 3"));
    bar.add(button(back, "report.back", () -> turn(-1)));
    bar.add(at);
    bar.add(button(on, "report.on", () -> turn(1)));
    bar.add(busy);
    bar.add(button(new JButton("Smaller"), "report.smaller", () -> zoom(-1)), "gapbefore push");
    bar.add(zoomed);
    bar.add(button(new JButton("Larger"), "report.larger", () -> zoom(1)));
    at.setName("report.at");
    return bar;
  }

  private static JButton button(JButton button, String name, Runnable run) {
    button.setName(name);
    button.addActionListener(e -> run.run());
    return button;
  }

  /**
   * Sets the pages anew, and shows the one that was shown.
   *
   * @param missing told what is missing from them
   * @param failed told that they could not be set
   */
  void set(Paper on, Consumer<Printer.Proof> missing, Consumer<Throwable> failed) {
    paper = on;
    busy.setVisible(true);
    ctx.later(
        printer.set(paper),
        proof -> {
          busy.setVisible(false);
          pages = proof.pages();
          page = Math.max(0, Math.min(page, pages - 1));
          draw(false);
          missing.accept(proof);
        },
        failure -> {
          busy.setVisible(false);
          pages = 0;
          sheet.show(null, "no pages", true);
          buttons();
          failed.accept(failure);
        });
  }

  @Override
  public void turn(int by) {
    int wanted = Math.max(0, Math.min(page + by, pages - 1));
    if (wanted != page) {
      page = wanted;
      draw(true);
    }
  }

  @Override
  public void zoom(int by) {
    zoom = by == 0 ? 0 : Math.max(0, Math.min(ZOOMS.length - 1, zoom + by));
    zoomed.setText(zoom == 0 ? "whole width" : Math.round(100 * ZOOMS[zoom]) + " %");
    draw(false);
  }

  private double scale() {
    if (zoom == 0) {
      return sheet.room(view.getViewport().getWidth()) / paper.width();
    }
    return ZOOMS[zoom] * PIXELS_A_POINT * ctx.scale();
  }

  /** The last that was asked for is shown, whichever comes first. */
  private void draw(boolean fromTop) {
    buttons();
    if (pages == 0) {
      return;
    }
    asked++;
    int mine = asked;
    String words = "page " + (page + 1) + " of " + pages;
    ctx.later(
        printer.page(page, scale()),
        image -> {
          if (mine == asked) {
            sheet.show(image, words, fromTop);
          }
        },
        failure -> {
          if (mine == asked && !(failure instanceof CancellationException)) {
            ctx.notices().trouble(failure);
          }
        });
  }

  private void buttons() {
    at.setText(pages == 0 ? "no pages yet" : "page " + (page + 1) + " of " + pages);
    back.setEnabled(page > 0);
    on.setEnabled(page < pages - 1);
  }

  int page() {
    return page;
  }

  void page(int wanted) {
    page = Math.max(0, wanted);
  }

  void focus() {
    sheet.requestFocusInWindow();
  }

  /** What the keyboard turns the pages of. */
  JComponent focused() {
    return sheet;
  }
}
