package bellwire.app.desk.survey;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.report.VoltageText;
import bellwire.app.sheet.SurveySheet;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.util.List;
import java.util.Locale;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** Foreign voltage, unmistakable: which ports, what voltage, induced or driven, what to do. */
final class VoltagePanel extends JPanel {
  private static final int HATCH = 26;

  private final DeskContext ctx;
  private final Words head = new Words("", 34, true);
  private final JLabel figure = new JLabel(" ");
  private final Words words = new Words("", 20, false);

  VoltagePanel(DeskContext ctx) {
    super(new MigLayout("insets 40 40 40 40, fillx, wrap 1", "[grow,fill]", "[]14[]14[]"));
    this.ctx = ctx;
    setName("survey.voltage");
    head.setName("survey.voltage.head");
    head.setText("\u26A1 " + VoltageText.HEADING);
    figure.setName("survey.voltage.figure");
    figure.putClientProperty("FlatLaf.style", "font: bold 48");
    words.setName("survey.voltage.words");
    add(head, "wmin 0");
    add(figure, "wmin 0");
    add(words, "wmin 0");
  }

  void show(SurveySheet sheet, List<String> lines) {
    SurveySheet.Voltage v = sheet.voltage();
    figure.setText(
        v == null
            ? "gone when it was looked for"
            : String.format(
                Locale.ROOT,
                "%s: %.1f V %s, %s",
                String.join(" to ", v.between()),
                v.volts(),
                v.alternating() ? "AC" : "DC",
                v.driven() ? "DRIVEN" : v.alternating() ? "induced" : "hardly fed"));
    words.setText(String.join("\n\n", lines));
    getAccessibleContext().setAccessibleName(VoltageText.HEADING + ". " + figure.getText());
  }

  /** A hatched frame: seen as a shape where its colour is not. */
  @Override
  protected void paintComponent(Graphics g) {
    super.paintComponent(g);
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      Color faulty = ctx.palette().faulty();
      int band = (int) (HATCH * ctx.scale());
      g2.setColor(faulty);
      g2.setStroke(new BasicStroke(band / 3f));
      java.awt.geom.Area frame =
          new java.awt.geom.Area(new java.awt.Rectangle(0, 0, getWidth(), getHeight()));
      frame.subtract(
          new java.awt.geom.Area(
              new java.awt.Rectangle(band, band, getWidth() - 2 * band, getHeight() - 2 * band)));
      g2.clip(frame);
      for (int x = -getHeight(); x < getWidth(); x += band) {
        g2.drawLine(x, getHeight(), x + getHeight(), 0);
      }
    } finally {
      g2.dispose();
    }
  }
}
