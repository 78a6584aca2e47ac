package bellwire.app.desk.vigil;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Spoken;
import bellwire.app.drawing.Lettering;
import bellwire.app.drawing.Palette;
import bellwire.app.rehearsal.Times;
import bellwire.app.vigil.VigilView;
import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.util.List;
import javax.accessibility.AccessibleRole;

/** What each conductor or lead has done so far, to be read from where the cable is shaken. */
final class VigilRows extends Spoken {
  private static final long serialVersionUID = 1L;
  private static final int ROW = 44;
  private static final int NAME = 18;
  private static final int COUNT = 28;
  private static final int SMALL = 14;
  private static final long SECOND = 1_000_000;
  private static final int FEW = 6;

  private final transient DeskContext ctx;
  private transient List<VigilView.Row> rows = List.of();

  VigilRows(DeskContext ctx) {
    super(AccessibleRole.LIST);
    this.ctx = ctx;
    getAccessibleContext().setAccessibleName("What was seen of each");
    setName("vigil.rows");
    ctx.onLook(
        () -> {
          revalidate();
          repaint();
        });
  }

  void show(List<VigilView.Row> now) {
    boolean more = now.size() != rows.size();
    rows = now;
    if (more) {
      revalidate();
    }
    repaint();
  }

  private int columns() {
    return rows.size() > FEW ? 2 : 1;
  }

  @Override
  public Dimension getPreferredSize() {
    int lines = (Math.max(1, rows.size()) + columns() - 1) / columns();
    return new Dimension((int) (420 * ctx.scale()), (int) (lines * ROW * ctx.scale()));
  }

  @Override
  public Dimension getMinimumSize() {
    return getPreferredSize();
  }

  @Override
  protected void paintComponent(Graphics graphics) {
    Graphics2D g = (Graphics2D) graphics.create();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    double scale = ctx.scale();
    g.scale(scale, scale);
    Palette palette = ctx.palette();
    double width = getWidth() / scale / columns();
    int lines = (rows.size() + columns() - 1) / columns();
    for (int i = 0; i < rows.size(); i++) {
      row(g, palette, rows.get(i), i / Math.max(1, lines) * width, i % lines * ROW, width - 16);
    }
    g.dispose();
  }

  private static void row(
      Graphics2D g, Palette palette, VigilView.Row row, double x, double y, double width) {
    boolean happens = happens(row);
    boolean ever = row.events() > 0;
    g.setPaint(ever || happens ? palette.faulty() : palette.sound());
    shape(g, ever || happens, x + 12, y + ROW / 2.0);
    Font count = Lettering.bold(COUNT);
    String number = Long.toString(row.events());
    double wide = Math.max(54, Lettering.width(number, count));
    Lettering.draw(
        g, number, count, x + 30 + wide - Lettering.width(number, count), y + ROW * 0.72);
    double left = x + 30 + wide + 12;
    double room = width - (left - x);
    Font name = Lettering.bold(NAME);
    g.setPaint(palette.ink());
    Lettering.draw(g, Lettering.shorten(row.name(), name, room), name, left, y + 18);
    Font small = Lettering.regular(SMALL);
    g.setPaint(happens ? palette.faulty() : palette.faint());
    String now = row.now();
    String said = now.isEmpty() ? said(row) : now + " now; " + said(row);
    Lettering.draw(g, Lettering.shorten(said, small, room), small, left, y + 37);
  }

  private static boolean happens(VigilView.Row row) {
    return row.now().equals("OPEN") || row.now().equals("touching");
  }

  /** A ring for none, a wedge for some. */
  private static void shape(Graphics2D g, boolean some, double x, double y) {
    g.setStroke(new BasicStroke(2.5f));
    if (some) {
      Path2D wedge = new Path2D.Double();
      wedge.moveTo(x - 10, y - 8);
      wedge.lineTo(x + 10, y - 8);
      wedge.lineTo(x, y + 10);
      wedge.closePath();
      g.fill(wedge);
    } else {
      g.draw(new Ellipse2D.Double(x - 8, y - 8, 16, 16));
    }
  }

  static String said(VigilView.Row row) {
    if (row.events() == 0) {
      return "none so far";
    }
    String longest =
        row.longestMicros() == 0 ? "" : ", longest " + Times.words(row.longestMicros());
    String brief = row.brief() == 0 ? "" : ", " + row.brief() + " under 1 ms";
    return "last " + seconds(row.lastMicros()) + " ago" + longest + brief;
  }

  static String seconds(long micros) {
    return micros < SECOND ? "0 s" : Times.words(micros / SECOND * SECOND);
  }

  @Override
  protected String words() {
    StringBuilder words = new StringBuilder();
    for (VigilView.Row row : rows) {
      words.append(row.name()).append(": ").append(row.events()).append(" events, ");
      words.append(said(row)).append(' ').append(row.now()).append(". ");
    }
    return words.toString();
  }
}
