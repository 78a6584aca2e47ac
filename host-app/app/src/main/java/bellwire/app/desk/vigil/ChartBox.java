package bellwire.app.desk.vigil;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.drawing.Palette;
import java.awt.Color;
import java.awt.Font;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.text.DefaultCaret;
import javax.swing.text.JTextComponent;
import net.miginfocom.swing.MigLayout;

/** The chart with its buttons, and what is at its cursor in words. */
final class ChartBox extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final long HOUR = 3_600_000_000L;
  private static final int TYPE = 14;

  private final StripChart chart;
  private final Words words = new Words(StripKeys.WORDS);
  private final transient DeskContext ctx;

  /**
   * @param name begins the names of its buttons
   */
  ChartBox(DeskContext ctx, String name) {
    super(new MigLayout("insets 0, fill, wrap 1", "[grow, fill]", "[]4[grow, fill]4[]"));
    this.ctx = ctx;
    chart = new StripChart(colours(ctx.palette()));
    chart.setName(name + ".chart");
    JPanel buttons = new JPanel(new MigLayout("insets 0", "", ""));
    button(buttons, name + ".all", "All", "Home", chart::all);
    button(buttons, name + ".hour", "1 h", "H", () -> chart.length(HOUR));
    button(buttons, name + ".minute", "1 min", "M", () -> chart.length(HOUR / 60));
    button(buttons, name + ".in", "+", "plus", () -> chart.zoom(0.5));
    button(buttons, name + ".out", "−", "minus", () -> chart.zoom(2));
    button(buttons, name + ".before", "Event before", "Up", () -> chart.event(false));
    button(buttons, name + ".after", "Next event", "Down", () -> chart.event(true));
    add(buttons);
    add(chart, "hmin 160");
    words.setName(name + ".words");
    // Its text changes with each drawing: a pane of its own keeps the page from being laid out
    // anew.
    JScrollPane below = new JScrollPane(words);
    below.setBorder(BorderFactory.createEmptyBorder());
    below.setHorizontalScrollBarPolicy(JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
    add(below, "growx, h 44!");
    chart.tell(words::setText, why -> ctx.notices().trouble(why));
    look();
    ctx.onLook(this::look);
    ctx.onClose(chart::close);
  }

  /** Text that changes while nobody types in it need not be scrolled to its end. */
  static void still(JTextComponent text) {
    if (text.getCaret() instanceof DefaultCaret caret) {
      caret.setUpdatePolicy(DefaultCaret.NEVER_UPDATE);
    }
  }

  private static void button(JPanel to, String name, String words, String key, Runnable run) {
    JButton button = new JButton(words);
    button.setName(name);
    button.setToolTipText(key);
    button.getAccessibleContext().setAccessibleName("Chart: " + words);
    button.addActionListener(e -> run.run());
    to.add(button, "hmin 40");
  }

  private void look() {
    chart.setFont(new Font("DejaVu Sans", Font.PLAIN, (int) Math.round(TYPE * ctx.scale())));
    chart.colours(colours(ctx.palette()));
  }

  static StripColours colours(Palette of) {
    return new StripColours(
        of.paper(), of.ink(), of.line(), of.faint(), of.faulty(), soft(of), of.accent());
  }

  /** A band's colour: enough to be seen, and no more. */
  private static Color soft(Palette of) {
    Color a = of.accent();
    Color p = of.paper();
    return new Color(
        (a.getRed() + 3 * p.getRed()) / 4,
        (a.getGreen() + 3 * p.getGreen()) / 4,
        (a.getBlue() + 3 * p.getBlue()) / 4);
  }

  StripChart chart() {
    return chart;
  }
}
