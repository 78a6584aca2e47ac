package bellwire.app.desk.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.KeptField;
import bellwire.app.job.CableRow;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.function.BiFunction;
import java.util.function.Function;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** The cable's facts: kept as they are typed, taken back with Ctrl+Z. */
final class CableForm extends JPanel {
  private final DeskContext ctx;
  private final SurveyState state;
  private final JTextField name = new JTextField();
  private final JTextField gauge = new JTextField();
  private final JTextField length = new JTextField();
  private final JTextField warmth = new JTextField();
  private final JTextField near = new JTextField();
  private final JTextField far = new JTextField();

  CableForm(DeskContext ctx, SurveyState state) {
    super(new MigLayout("insets 0, fillx, wrap 4", "[][grow,fill,80:120:]14[][grow,fill,80:120:]"));
    this.ctx = ctx;
    this.state = state;
    field("Cable", name, "survey.name", "such as 18-5", this::named);
    field("Gauge", gauge, "survey.gauge", "18 AWG or 0.75 mm2", this::gauged);
    field("Length", length, "survey.length", "24 m or 80 ft", this::measured);
    field("Copper at", warmth, "survey.temperature", "22 C or 72 F", this::warmed);
    field("Near end", near, "survey.near", "the equipment's place", (r, t) -> places(r, t, null));
    field("Far end", far, "survey.far", "the control's place", (r, t) -> places(r, null, t));
    state.listen(this::refresh);
    ctx.onFlush(this::flush);
    for (JTextField words : List.of(name, near, far)) { // a number is told when it is whole
      if (words.getClientProperty("commit") instanceof Runnable commit) {
        var unused = new KeptField(ctx, words, commit);
      }
    }
  }

  private void field(
      String words,
      JTextField field,
      String key,
      String hint,
      BiFunction<CableRow, String, @Nullable CableRow> edit) {
    JLabel label = new JLabel(words);
    label.setLabelFor(field);
    field.setName(key);
    field.getAccessibleContext().setAccessibleName(words);
    field.putClientProperty("JTextField.placeholderText", hint);
    Runnable commit = () -> commit(field, words, edit);
    field.addActionListener(e -> commit.run());
    field.putClientProperty("commit", commit);
    field.addFocusListener(
        new FocusAdapter() {
          @Override
          public void focusLost(FocusEvent e) {
            commit.run();
          }
        });
    add(label);
    add(field, "wmin 60");
  }

  /** What is being typed counts. */
  private void flush() {
    for (var part : getComponents()) {
      if (part instanceof JTextField field
          && field.isFocusOwner()
          && field.getClientProperty("commit") instanceof Runnable commit) {
        commit.run();
      }
    }
  }

  private void commit(
      JTextField field, String words, BiFunction<CableRow, String, @Nullable CableRow> edit) {
    CableRow row = state.now().cable();
    String text = field.getText().strip();
    if (text.equals(field.getClientProperty("shown"))) {
      return;
    }
    CableRow after = edit.apply(row, text);
    if (after == null) {
      ctx.notices()
          .trouble(
              words
                  + ": '"
                  + text
                  + "' is not understood; write it like '"
                  + field.getClientProperty("JTextField.placeholderText")
                  + "'.");
      refresh();
    } else {
      field.putClientProperty("shown", text);
      state.edit(words.toLowerCase(Locale.ROOT) + " of the cable", after);
    }
  }

  private @Nullable CableRow named(CableRow r, String text) {
    return new CableRow(
        r.id(), text, r.gauge(), r.metres(), r.celsius(), r.nearPlace(), r.farPlace(), r.note());
  }

  private @Nullable CableRow gauged(CableRow r, String text) {
    return !text.isEmpty() && Gauge.parse(text).isEmpty()
        ? null
        : new CableRow(
            r.id(), r.name(), text, r.metres(), r.celsius(), r.nearPlace(), r.farPlace(), r.note());
  }

  private @Nullable CableRow measured(CableRow r, String text) {
    OptionalDouble metres =
        text.isEmpty() ? OptionalDouble.of(Double.NaN) : ctx.units().parseMetres(text);
    return metres.isEmpty()
        ? null
        : new CableRow(
            r.id(),
            r.name(),
            r.gauge(),
            metres.getAsDouble(),
            r.celsius(),
            r.nearPlace(),
            r.farPlace(),
            r.note());
  }

  private @Nullable CableRow warmed(CableRow r, String text) {
    OptionalDouble celsius = text.isEmpty() ? OptionalDouble.of(Double.NaN) : Warmth.celsius(text);
    return celsius.isEmpty()
        ? null
        : new CableRow(
            r.id(),
            r.name(),
            r.gauge(),
            r.metres(),
            celsius.getAsDouble(),
            r.nearPlace(),
            r.farPlace(),
            r.note());
  }

  private @Nullable CableRow places(CableRow r, @Nullable String atNear, @Nullable String atFar) {
    return new CableRow(
        r.id(),
        r.name(),
        r.gauge(),
        r.metres(),
        r.celsius(),
        atNear == null ? r.nearPlace() : atNear,
        atFar == null ? r.farPlace() : atFar,
        r.note());
  }

  private void refresh() {
    CableRow row = state.now().cable();
    put(name, row.name());
    put(gauge, row.gauge());
    put(length, told(row.metres(), ctx.units()::length));
    put(warmth, told(row.celsius(), c -> String.format(Locale.ROOT, "%.0f C", c)));
    put(near, row.nearPlace());
    put(far, row.farPlace());
  }

  private static String told(double value, Function<Double, String> words) {
    return Double.isNaN(value) ? "" : words.apply(value);
  }

  private static void put(JTextField field, String text) {
    boolean typing =
        field.isFocusOwner() && !field.getText().equals(field.getClientProperty("shown"));
    if (!typing) {
      field.putClientProperty("shown", text);
      if (!field.getText().equals(text)) {
        field.setText(text);
      }
    }
  }
}
