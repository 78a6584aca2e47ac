package bellwire.app.desk.survey;

import bellwire.app.desk.Beside;
import bellwire.app.desk.Column;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.report.Cautions;
import java.awt.BorderLayout;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import net.miginfocom.swing.MigLayout;

/** Before a survey: the cable, its conductors, how it is to go, and what is to be minded. */
final class SetupPanel extends JPanel {
  private static final String IN_PLACE_FIRST =
      "Survey in place before anything is lifted at the equipment: it keeps what unlanding destroys,"
          + " loose clamps, touching copper, jumpers. Then survey with the conductors lifted.";

  private static final int NARROW_EMS = 54;

  private final HowPanel how;
  private final Words warning = new Words("", 17, true);

  SetupPanel(DeskContext ctx, SurveyState state) {
    super(new BorderLayout());
    how = new HowPanel(ctx, state);
    warning.setName("survey.warning");
    JPanel right = new Column(new MigLayout("insets 0, fillx, wrap 1, hidemode 3", "[grow,fill]"));
    right.add(how, "wmin 0");
    right.add(warning, "wmin 0");
    right.add(new Words(IN_PLACE_FIRST), "wmin 0, gaptop 4");
    right.add(new Words("Before anything is connected", 15, true), "wmin 0, gaptop 6");
    right.add(new Words("\u2022 " + String.join("\n\u2022 ", Cautions.lines())), "wmin 0");
    JScrollPane scrolled = new JScrollPane(right, 20, 31);
    scrolled.setBorder(BorderFactory.createEmptyBorder());
    ConductorTable conductors = new ConductorTable(state);
    ctx.onFlush(conductors::flush);
    JPanel left =
        new JPanel(new MigLayout("insets 0, fill, wrap 1", "[grow,fill]", "[][][grow,fill]"));
    left.add(new CableForm(ctx, state), "wmin 0");
    left.add(new Words("Colours of the conductors, by the port they are clamped to:"), "wmin 0");
    left.add(new JScrollPane(conductors), "wmin 0, hmin 140");
    add(
        new Beside(
            NARROW_EMS, "0", new Beside.Part(left, 54, 28), new Beside.Part(scrolled, 46, 26)));
    state.listen(() -> warn(state.now()));
  }

  HowPanel how() {
    return how;
  }

  private void warn(Snapshot now) {
    boolean proved = now.provedDead();
    warning.setText(
        proved
            ? ""
            : "\u25B2 Page 2 has no record that the supplies were switched off and the cable proved"
                + " dead. Do that first; the board can't do it for you.");
    warning.setVisible(!proved);
  }
}
