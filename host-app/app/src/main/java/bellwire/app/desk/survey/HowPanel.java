package bellwire.app.desk.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.desk.DeskContext;
import bellwire.app.job.CableRow;
import bellwire.app.job.Stage;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.survey.TieChoice;
import bellwire.app.visit.SurveyOrder;
import bellwire.board.CodedPlug;
import java.util.EnumSet;
import java.util.Set;
import javax.swing.ButtonGroup;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JRadioButton;
import net.miginfocom.swing.MigLayout;

/** How the next survey is to go: in place or lifted, before or after, what is at the far end. */
final class HowPanel extends JPanel {
  private static final long DWELL_MICROS = 2_000_000;
  private static final long REAL_WAIT_MICROS = 900_000_000;
  private static final long BENCH_WAIT_MICROS = 180_000_000;
  private static final long RESEAT_MICROS = 120_000_000;

  /** What goes on the far end. */
  enum FarEnd {
    BOTH_PLUGS("coded plug, then tie plug"),
    CODED("coded plug only: which is which"),
    TIE("tie plug only: resistances"),
    CLIPS("clips, fewest: no plug at hand"),
    ALL_CLIPS("clips, every conductor in one"),
    NOTHING("nothing: the open cable only");

    private final String words;

    FarEnd(String words) {
      this.words = words;
    }

    @Override
    public String toString() {
      return words;
    }
  }

  private final DeskContext ctx;
  private final JRadioButton inPlace = new JRadioButton("in place, still landed");
  private final JRadioButton lifted = new JRadioButton("lifted off at the equipment");
  private final JComboBox<String> stage =
      new JComboBox<>(new String[] {"as found, before the work", "as left, after the work"});
  private final JComboBox<FarEnd> farEnd = new JComboBox<>(FarEnd.values());
  private final JCheckBox declared = new JCheckBox("every port with a colour has a conductor");

  HowPanel(DeskContext ctx, SurveyState state) {
    super(new MigLayout("insets 0, fillx, wrap 2", "[][grow,fill]", "[]2[]8[][][]"));
    this.ctx = ctx;
    ButtonGroup group = new ButtonGroup();
    group.add(inPlace);
    group.add(lifted);
    inPlace.setSelected(true);
    inPlace.setName("survey.inPlace");
    lifted.setName("survey.lifted");
    stage.setName("survey.stage");
    farEnd.setName("survey.farEnd");
    declared.setName("survey.declared");
    declared
        .getAccessibleContext()
        .setAccessibleDescription("One that is not found then counts as broken.");
    JLabel where = new JLabel("Measured");
    JLabel when = new JLabel("When");
    JLabel plug = new JLabel("Far end");
    when.setLabelFor(stage);
    plug.setLabelFor(farEnd);
    stage.getAccessibleContext().setAccessibleName("When");
    farEnd.getAccessibleContext().setAccessibleName("Far end");
    add(where);
    add(inPlace, "wmin 0");
    add(new JLabel());
    add(lifted, "wmin 0");
    add(when);
    add(stage, "wmin 60");
    add(plug);
    add(farEnd, "wmin 60");
    add(declared, "span 2, wmin 0");
    state.listen(() -> suggest(state.now()));
  }

  private long suggestedFor = -1;
  private int suggestedAfter = -1;
  private boolean suggestedLeft;

  /**
   * In place first: unlanding destroys what it shows. Once that is done, lifted; and as left once
   * the work that follows a survey is done. What a person chooses stands until there is news.
   */
  private void suggest(Snapshot now) {
    boolean another = suggestedFor != 0 && now.cable().id() != suggestedFor;
    suggestedFor = now.cable().id(); // a new cable's first key is no news
    boolean news =
        another || now.surveys().size() != suggestedAfter || now.worked() != suggestedLeft;
    if (!news) {
      return;
    }
    suggestedAfter = now.surveys().size();
    suggestedLeft = now.worked();
    boolean first = now.surveys().stream().noneMatch(Seen::hasResult);
    (first ? inPlace : lifted).setSelected(true);
    stage.setSelectedIndex(now.worked() ? 1 : 0);
  }

  void lifted() {
    lifted.setSelected(true);
  }

  boolean isInPlace() {
    return inPlace.isSelected();
  }

  SurveyOrder order(Snapshot now) {
    int mask = 0;
    if (declared.isSelected()) {
      for (int port : now.nearColours().keySet()) {
        mask |= 1 << port;
      }
    }
    FarEnd far = (FarEnd) java.util.Objects.requireNonNull(farEnd.getSelectedItem());
    SurveyOptions plain =
        new SurveyOptions(
            mask,
            plugs(far),
            DWELL_MICROS,
            ctx.visit().boards().simulated() ? BENCH_WAIT_MICROS : REAL_WAIT_MICROS,
            0,
            RESEAT_MICROS,
            BoardModels.plug(CodedPlug.nominal()),
            facts(now.cable()),
            Criteria.standard());
    boolean clips = far == FarEnd.CLIPS || far == FarEnd.ALL_CLIPS;
    SurveyOptions options =
        clips ? plain.withTies(new TieChoice(0, far == FarEnd.ALL_CLIPS)) : plain;
    return new SurveyOrder(
        now.cable().id(),
        stage.getSelectedIndex() == 0 ? Stage.AS_FOUND : Stage.AS_LEFT,
        inPlace.isSelected(),
        options,
        now.nearColours(),
        now.mainsHertz());
  }

  private static Set<FarEndKind> plugs(FarEnd far) {
    return switch (far) {
      case BOTH_PLUGS -> EnumSet.of(FarEndKind.CODED, FarEndKind.TIE);
      case CODED -> EnumSet.of(FarEndKind.CODED);
      case TIE -> EnumSet.of(FarEndKind.TIE);
      case CLIPS, ALL_CLIPS, NOTHING -> EnumSet.noneOf(FarEndKind.class);
    };
  }

  static CableFacts facts(CableRow cable) {
    CableFacts unknown = CableFacts.unknown();
    return new CableFacts(
        Gauge.parse(cable.gauge()).orElse(null),
        cable.metres(),
        Double.isNaN(cable.celsius()) ? unknown.celsius() : cable.celsius(),
        unknown.uCelsius());
  }
}
