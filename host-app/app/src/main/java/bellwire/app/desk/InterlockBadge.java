package bellwire.app.desk;

import bellwire.app.drawing.Palette;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.util.function.Supplier;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** The interlock's state, always in view: a shape, a headline, the rest in words. */
final class InterlockBadge extends JPanel {
  private final Supplier<Palette> palette;
  private final JLabel headline = new JLabel();
  private final Words detail = new Words("", 16, false);
  private final Shape shape = new Shape();
  private boolean thin;
  private InterlockState state = InterlockState.NOT_CONNECTED;

  InterlockBadge(Supplier<Palette> palette) {
    this.palette = palette;
    setName("band.interlock");
    arrange();
    show(state);
  }

  /** In one line, where room is scarce; voltage takes its room whatever there is. */
  void thin(boolean wanted) {
    thin = wanted;
    arrange();
  }

  private void arrange() {
    removeAll();
    if (thin && state.kind() != InterlockState.Kind.VOLTAGE) {
      setLayout(new MigLayout("insets 4 10 4 10, gap 10 0", "[][][grow,fill]", "[center]"));
      add(shape, "w 26!, h 26!");
      add(Look.bold(headline, 18));
      add(detail, "growx, wmin 60");
    } else {
      setLayout(new MigLayout("insets 6 10 6 10, gap 10 2", "[]10[grow,fill]", "[][]"));
      add(shape, "span 1 2, w 52!, h 52!, aligny center");
      add(Look.bold(headline, 24), "wrap");
      add(detail, "growx, wmin 60");
    }
    revalidate();
  }

  void show(InterlockState shown) {
    boolean alarm =
        (shown.kind() == InterlockState.Kind.VOLTAGE)
            != (state.kind() == InterlockState.Kind.VOLTAGE);
    state = shown;
    if (thin && alarm) {
      arrange();
    }
    headline.setText(shown.headline());
    detail.setText(shown.detail());
    getAccessibleContext().setAccessibleName("Interlock: " + shown.words());
    revalidate();
    repaint();
  }

  InterlockState state() {
    return state;
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    if (accessibleContext == null) {
      accessibleContext =
          new AccessibleJPanel() {
            @Override
            public AccessibleRole getAccessibleRole() {
              return AccessibleRole.STATUS_BAR;
            }
          };
    }
    return accessibleContext;
  }

  /** Voltage has a frame as thick as a finger, so that it is seen from the ladder. */
  @Override
  protected void paintComponent(Graphics g) {
    super.paintComponent(g);
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      boolean alarm = state.kind() == InterlockState.Kind.VOLTAGE;
      g2.setColor(alarm ? palette.get().faulty() : palette.get().line());
      int thick = alarm ? 5 : 1;
      g2.setStroke(new BasicStroke(thick));
      g2.drawRect(thick / 2, thick / 2, getWidth() - thick, getHeight() - thick);
    } finally {
      g2.dispose();
    }
  }

  private final class Shape extends JComponent {
    @Override
    protected void paintComponent(Graphics g) {
      Graphics2D g2 = (Graphics2D) g.create();
      try {
        g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        double side = Math.min(getWidth(), getHeight());
        g2.translate((getWidth() - side) / 2, (getHeight() - side) / 2);
        g2.scale(side / 100, side / 100);
        paint(g2);
      } finally {
        g2.dispose();
      }
    }

    private void paint(Graphics2D g) {
      Palette colours = palette.get();
      switch (state.kind()) {
        case NOT_CONNECTED -> ring(g, colours.faint(), new float[] {14, 10});
        case UNKNOWN -> {
          ring(g, colours.undecided(), new float[] {1});
          stroke(g, colours.undecided(), 34, 38, 40, 26, 60, 26, 66, 38, 50, 56, 50, 62);
          stroke(g, colours.undecided(), 50, 76, 50, 77);
        }
        case CLEAR -> {
          ring(g, colours.sound(), new float[] {1});
          stroke(g, colours.sound(), 28, 52, 44, 68, 72, 34);
        }
        case LIVE -> {
          triangle(g, colours.undecided(), colours.paper());
        }
        case VOLTAGE -> octagon(g, colours.faulty(), colours.paper());
      }
    }
  }

  private static void ring(Graphics2D g, Color colour, float[] dash) {
    g.setColor(colour);
    g.setStroke(
        dash.length == 1
            ? new BasicStroke(8)
            : new BasicStroke(8, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dash, 0));
    g.draw(new Ellipse2D.Double(8, 8, 84, 84));
  }

  private static void stroke(Graphics2D g, Color colour, double... points) {
    Path2D path = new Path2D.Double();
    path.moveTo(points[0], points[1]);
    for (int i = 2; i < points.length; i += 2) {
      path.lineTo(points[i], points[i + 1]);
    }
    g.setColor(colour);
    g.setStroke(new BasicStroke(10, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(path);
  }

  private static void octagon(Graphics2D g, Color fill, Color sign) {
    Path2D path = new Path2D.Double();
    for (int i = 0; i < 8; i++) {
      double angle = Math.PI / 8 + i * Math.PI / 4;
      double x = 50 + 48 * Math.cos(angle);
      double y = 50 + 48 * Math.sin(angle);
      if (i == 0) {
        path.moveTo(x, y);
      } else {
        path.lineTo(x, y);
      }
    }
    path.closePath();
    g.setColor(fill);
    g.fill(path);
    stroke(g, sign, 56, 18, 36, 52, 62, 52, 44, 84);
  }

  private static void triangle(Graphics2D g, Color fill, Color sign) {
    Path2D path = new Path2D.Double();
    path.moveTo(50, 6);
    path.lineTo(96, 92);
    path.lineTo(4, 92);
    path.closePath();
    g.setColor(fill);
    g.fill(path);
    stroke(g, sign, 50, 36, 50, 62);
    stroke(g, sign, 50, 77, 50, 78);
  }
}
