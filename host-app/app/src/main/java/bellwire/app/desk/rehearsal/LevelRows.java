package bellwire.app.desk.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Spoken;
import bellwire.app.drawing.Lettering;
import bellwire.app.drawing.Palette;
import bellwire.app.report.StepText;
import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import javax.accessibility.AccessibleRole;

/** Each terminal's level now: a full box is on, an empty one off, a half one weak. */
final class LevelRows extends Spoken {
  private static final long serialVersionUID = 1L;
  private static final int ROW = 36;
  private static final int WIDTH = 400;

  /**
   * A terminal now.
   *
   * @param wanted what the step wants of it; may be empty
   * @param well whether it has it
   */
  record Line(String name, Level level, String wanted, boolean well) {}

  private final transient DeskContext ctx;
  private transient List<Line> lines = List.of();

  LevelRows(DeskContext ctx) {
    super(AccessibleRole.LIST);
    this.ctx = ctx;
    getAccessibleContext().setAccessibleName("The terminals now");
    setName("rehearsal.levels");
    setFocusable(true);
    ctx.onLook(
        () -> {
          revalidate();
          repaint();
        });
  }

  void show(List<Line> now) {
    if (now.equals(lines)) {
      return;
    }
    boolean more = now.size() != lines.size();
    lines = List.copyOf(now);
    if (more) {
      revalidate();
    }
    repaint();
  }

  @Override
  public Dimension getPreferredSize() {
    return new Dimension(
        (int) (WIDTH * ctx.scale()), (int) (Math.max(1, lines.size()) * ROW * ctx.scale()));
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
    g.scale(ctx.scale(), ctx.scale());
    double width = getWidth() / ctx.scale();
    for (int i = 0; i < lines.size(); i++) {
      line(g, ctx.palette(), lines.get(i), i * ROW, width);
    }
    g.dispose();
  }

  private static void line(Graphics2D g, Palette palette, Line line, double y, double width) {
    box(g, palette, line.level(), y);
    Font bold = Lettering.bold(20);
    g.setPaint(palette.ink());
    Lettering.draw(g, Lettering.shorten(line.name(), bold, 90), bold, 42, y + 25);
    Lettering.draw(g, StepText.level(line.level()), bold, 140, y + 25);
    g.setPaint(line.well() ? palette.faint() : palette.faulty());
    Font plain = Lettering.regular(16);
    String wanted = (line.well() || line.wanted().isEmpty() ? "" : "▲ ") + line.wanted();
    Lettering.draw(g, Lettering.shorten(wanted, plain, width - 212), plain, 208, y + 24);
  }

  private static void box(Graphics2D g, Palette palette, Level level, double y) {
    Rectangle2D all = new Rectangle2D.Double(4, y + 5, 26, 26);
    g.setPaint(palette.ink());
    g.setStroke(new BasicStroke(2));
    switch (level) {
      case ON -> g.fill(all);
      case OFF -> g.draw(all);
      case WEAK -> {
        g.draw(all);
        g.fill(new Rectangle2D.Double(4, y + 18, 26, 13));
      }
      case UNKNOWN -> {
        float[] dashes = {4, 4};
        g.setStroke(new BasicStroke(2, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 1, dashes, 0));
        g.draw(all);
        g.draw(new Line2D.Double(4, y + 31, 30, y + 5));
      }
    }
  }

  @Override
  protected String words() {
    StringBuilder words = new StringBuilder();
    for (Line line : lines) {
      words.append(line.name()).append(' ').append(StepText.level(line.level()));
      words.append(line.wanted().isEmpty() ? "" : ", " + line.wanted()).append(". ");
    }
    return words.toString();
  }
}
