package bellwire.app.desk.survey;

import bellwire.app.desk.Column;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.report.Cautions;
import javax.swing.JButton;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import net.miginfocom.swing.MigLayout;

/** Before a survey: the cable, its conductors, how it is to go, and what is to be minded. */
final class SetupPanel extends JPanel {
  private static final String IN_PLACE_FIRST =
      "Survey in place before anything is lifted at the equipment: it keeps what unlanding destroys,"
          + " loose clamps, touching copper, jumpers. Then survey with the conductors lifted.";

  private final HowPanel how;
  private final Words warning = new Words("", 17, true);
  private final JButton start = new JButton("Start the survey");

  SetupPanel(DeskContext ctx, SurveyState state, Runnable starting) {
    super(
        new MigLayout(
            "insets 0, fill, wrap 2, gapx 18",
            "[grow 50,fill,0:560:][grow 50,fill,300:480:]",
            "[][][grow,fill]"));
    how = new HowPanel(ctx, state);
    warning.setName("survey.warning");
    start.setName("survey.start");
    start.putClientProperty("FlatLaf.style", "font: bold 17");
    start.addActionListener(e -> starting.run());
    JPanel right = new Column(new MigLayout("insets 0, fillx, wrap 1, hidemode 3", "[grow,fill]"));
    right.add(how, "wmin 0");
    right.add(warning, "wmin 0");
    right.add(start, "growx 0, wmin 0, hmin 48");
    right.add(new Words(IN_PLACE_FIRST).faint(), "wmin 0");
    right.add(new Words("\u2022 " + String.join("\n\u2022 ", Cautions.lines())), "wmin 0");
    JScrollPane scrolled = new JScrollPane(right, 20, 31);
    scrolled.setBorder(null);
    add(new CableForm(ctx, state), "growx");
    add(scrolled, "spany 3, grow");
    add(new Words("Colours of the conductors, by the port they are clamped to:"), "wmin 0");
    ConductorTable conductors = new ConductorTable(state);
    ctx.onFlush(conductors::flush);
    add(new JScrollPane(conductors), "grow, hmin 140");
    state.listen(() -> warn(state.now()));
  }

  HowPanel how() {
    return how;
  }

  private void warn(Snapshot now) {
    boolean proved = now.provedDead();
    start.setText(startWords(now));
    warning.setText(
        proved
            ? ""
            : "\u25B2 Page 2 has no record that the supplies were switched off and the cable proved"
                + " dead. Do that first; the board can't do it for you.");
    warning.setVisible(!proved);
  }

  static String startWords(Snapshot now) {
    return now.provedDead() ? "Start the survey" : "Start, not recorded as proved dead";
  }
}
