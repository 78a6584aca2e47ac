package bellwire.app.desk.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Explainer;
import bellwire.analysis.loop.Installation;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.landing.LandingDraft;
import java.awt.Component;
import java.awt.event.KeyAdapter;
import java.awt.event.KeyEvent;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** From symptoms to their cause, question by question. */
final class SymptomsPanel extends JPanel {
  private enum Told {
    SEEN,
    NOT_SEEN
  }

  private final DeskContext ctx;
  private final LandingState state;
  private final Errand errand;
  private final Map<Symptom, Told> told = new EnumMap<>(Symptom.class);
  private final JList<Symptom> list = new JList<>(Symptom.values());
  private final JButton explain = new JButton("Explain");
  private final JCheckBox doubles = new JCheckBox("two mistakes together too");
  private final Words words = new Words("");
  private final JPanel answers = new JPanel(new MigLayout("insets 0, wrap 2"));
  private @Nullable Dialogue dialogue;

  SymptomsPanel(DeskContext ctx, LandingState state, Errand errand) {
    super(
        new MigLayout(
            "insets 6, fill, wrap 2, hidemode 3", "[][grow]", "[grow 40,fill][][grow 60,fill][]"));
    this.ctx = ctx;
    this.state = state;
    this.errand = errand;
    list.setName("landing.symptoms");
    list.getAccessibleContext()
        .setAccessibleName("Symptoms: Space marks one as seen, as not seen, as not told");
    list.setCellRenderer(new Row());
    list.addKeyListener(
        new KeyAdapter() {
          @Override
          public void keyPressed(KeyEvent e) {
            if (e.getKeyCode() == KeyEvent.VK_SPACE || e.getKeyCode() == KeyEvent.VK_ENTER) {
              turn(list.getSelectedIndex());
              e.consume();
            }
          }
        });
    list.addMouseListener(
        new MouseAdapter() {
          @Override
          public void mouseClicked(MouseEvent e) {
            turn(list.locationToIndex(e.getPoint()));
          }
        });
    explain.setName("landing.explain");
    explain.setEnabled(false);
    explain.addActionListener(e -> explain());
    doubles.setName("landing.doubles");
    words.setName("landing.causes");
    words.setText(
        "Mark what is seen (once) and what was looked for and is not there (twice), then Explain."
            + " It is the plan in view that should be there.");
    JScrollPane above = new JScrollPane(list, 20, 31);
    JScrollPane below = new JScrollPane(words, 20, 31);
    below.setBorder(null);
    add(above, "span 2, grow, hmin 80");
    add(explain);
    add(doubles);
    add(below, "span 2, grow, hmin 70");
    add(answers, "span 2, growx");
  }

  private void turn(int index) {
    if (index < 0) {
      return;
    }
    Symptom symptom = Symptom.values()[index];
    Told was = told.get(symptom);
    if (was == null) {
      told.put(symptom, Told.SEEN);
    } else if (was == Told.SEEN) {
      told.put(symptom, Told.NOT_SEEN);
    } else {
      told.remove(symptom);
    }
    explain.setEnabled(told.containsValue(Told.SEEN));
    list.repaint();
  }

  private Set<Symptom> all(Told how) {
    Set<Symptom> all = EnumSet.noneOf(Symptom.class);
    told.forEach(
        (symptom, was) -> {
          if (was == how) {
            all.add(symptom);
          }
        });
    return all;
  }

  private void explain() {
    LandingDraft draft = state.draft();
    Installation intended = draft == null ? null : draft.installation(state.which());
    if (intended == null) {
      ctx.notices().note("Choose the old control above first, or look at 'As planned'.");
      return;
    }
    Set<Symptom> seen = all(Told.SEEN);
    Set<Symptom> notSeen = all(Told.NOT_SEEN);
    boolean two = doubles.isSelected();
    busy();
    errand.run(
        "explaining the symptoms",
        watch ->
            new Explainer(intended)
                .explain(
                    seen,
                    notSeen,
                    two,
                    (done, of) ->
                        watch.at(of == 0 ? Double.NaN : (double) done / of, "trying mistakes")),
        this::shown,
        () -> explain.setEnabled(true));
  }

  private void busy() {
    explain.setEnabled(false);
    answers.removeAll();
    words.setText("Trying every mistake …");
  }

  /** An answer, which is weighed off the event thread. */
  private void then(UnaryOperator<Dialogue> answer) {
    Dialogue now = dialogue;
    if (now != null) {
      busy();
      errand.run(
          "weighing the answer",
          watch -> answer.apply(now),
          this::shown,
          () -> explain.setEnabled(true));
    }
  }

  private void shown(Dialogue shown) {
    dialogue = shown;
    explain.setEnabled(true);
    words.setText(CausesText.of(shown));
    words.setCaretPosition(0);
    answers.removeAll();
    Dialogue.Question question = shown.next();
    if (question != null) {
      int index = 0;
      for (String way : question.measurement().answers()) {
        int chosen = index++;
        button(
            way,
            "landing.answer." + chosen,
            d -> {
              d.answer(chosen);
              return d;
            });
      }
      button(
          "Can't tell",
          "landing.answer.unknown",
          d -> {
            d.dontKnow();
            return d;
          });
    }
    if (!shown.answered().isEmpty()) {
      button(
          "Back",
          "landing.answer.back",
          d -> {
            d.undo();
            return d;
          });
    }
    answers.revalidate();
    answers.repaint();
  }

  private void button(String text, String name, UnaryOperator<Dialogue> answer) {
    JButton button = new JButton(text);
    button.setName(name);
    button.addActionListener(e -> then(answer));
    answers.add(button, "growx, wmin 60");
  }

  private final class Row extends DefaultListCellRenderer {
    @Override
    public Component getListCellRendererComponent(
        JList<?> all, Object value, int index, boolean selected, boolean focus) {
      Symptom symptom = (Symptom) value;
      Told was = told.get(symptom);
      String mark = was == null ? "    " : was == Told.SEEN ? "\u25CF seen: " : "\u25CB not seen: ";
      return super.getListCellRendererComponent(
          all, mark + symptom.words(), index, selected, focus);
    }
  }
}
