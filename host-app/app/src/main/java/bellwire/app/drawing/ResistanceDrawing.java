package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.Plate.Align;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Standing;
import java.awt.Font;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Each conductor's own resistance as a dot with a bar for ±U (k = 2), on a scale from zero, beside
 * what gauge and length would give, or the middle of the sound ones where those are not known.
 * Spots: {@code conductor:P3}.
 */
public final class ResistanceDrawing extends PlateDrawing {
  private static final double DOT = 3.6;

  private final SurveySheet sheet;
  private final Run run;
  private final double row;
  private final @Nullable String selectedKey;

  /**
   * @param selectedKey a spot's key, null for none
   */
  public ResistanceDrawing(SurveySheet sheet, @Nullable String selectedKey) {
    this(sheet, Run.UNKNOWN, selectedKey);
  }

  public ResistanceDrawing(SurveySheet sheet, Run run, @Nullable String selectedKey) {
    this(sheet, run, Rows.ROOMY, selectedKey);
  }

  /**
   * @param row height of a conductor's row, see {@link Rows}
   */
  public ResistanceDrawing(SurveySheet sheet, Run run, double row, @Nullable String selectedKey) {
    this.sheet = sheet;
    this.run = run;
    this.row = row;
    this.selectedKey = selectedKey;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    return sheet.conductors().isEmpty() ? Nothing.lay(plate, sheet) : new Layout(plate).lay();
  }

  @Override
  public String words() {
    if (sheet.conductors().isEmpty()) {
      return Nothing.words(sheet);
    }
    StringBuilder words = new StringBuilder("Resistance of each conductor.");
    sheet.conductors().forEach(c -> words.append(' ').append(words(c)));
    return words.append(' ').append(reference()).append('.').toString();
  }

  private static String words(Conductor c) {
    return c.name()
        + ": "
        + (c.ohms() == null ? "not measured" : Figures.expandedOhms(c.ohms()) + " (k = 2)")
        + ", "
        + c.standing().word()
        + ": "
        + RouteDrawing.sentence(c.reason());
  }

  /** What the dots are to be compared with, NaN where nothing is. */
  private double referenceOhms() {
    double nominal = run.nominalOhms();
    if (!Double.isNaN(nominal)) {
      return nominal;
    }
    double[] sound =
        sheet.conductors().stream()
            .filter(c -> c.standing() == Standing.SOUND && c.ohms() != null)
            .mapToDouble(c -> c.ohms() == null ? 0 : c.ohms().value())
            .sorted()
            .toArray();
    int n = sound.length;
    return n == 0 ? Double.NaN : (sound[(n - 1) / 2] + sound[n / 2]) / 2;
  }

  private String reference() {
    double ohms = referenceOhms();
    if (Double.isNaN(ohms)) {
      return "Nothing to compare with";
    }
    return run.gauge() != null && !Double.isNaN(run.nominalOhms())
        ? String.format(
            Locale.ROOT,
            "Nominal %s: %s, %s, %.0f \u00b0C",
            Figures.ohms(ohms),
            run.gauge().label(),
            length(),
            run.celsius())
        : "Middle of the sound ones: " + Figures.ohms(ohms);
  }

  private String length() {
    Quantity shown = Figures.length(new Quantity(run.metres(), 0, "m"), run);
    return BigDecimal.valueOf(shown.value())
            .setScale(1, RoundingMode.HALF_UP)
            .stripTrailingZeros()
            .toPlainString()
        + " "
        + shown.unit();
  }

  private final class Layout {
    private final Plate plate;
    private final Font font = Lettering.regular(TYPE);
    private final Font bold = Lettering.bold(TYPE);
    private final double ports;
    private final double left;
    private final double right;
    private final double fullOhms;

    Layout(Plate plate) {
      this.plate = plate;
      ports = Lettering.width("P16", bold) + 6;
      double names = 0;
      double values = Lettering.width("not measured", font);
      for (Conductor c : sheet.conductors()) {
        String colour = c.colour() == null ? "" : Lettering.clean(c.colour());
        names = Math.max(names, Lettering.width(colour, font));
        values = Math.max(values, Lettering.width(value(c), font));
      }
      left = ports + Math.min(names, 0.22 * plate.width()) + 10;
      right = plate.width() - values - 26;
      fullOhms = full();
    }

    private String value(Conductor c) {
      return c.ohms() == null ? "not measured" : Figures.expandedOhms(c.ohms());
    }

    private double full() {
      double most = Double.isNaN(referenceOhms()) ? 0 : referenceOhms();
      for (Conductor c : sheet.conductors()) {
        if (c.ohms() != null) {
          most = Math.max(most, c.ohms().value() + Figures.K * c.ohms().u());
        }
      }
      return most > 0 ? 1.05 * most : 1;
    }

    private double x(double ohms) {
      return left + (right - left) * Math.max(0, Math.min(1, ohms / fullOhms));
    }

    Plate lay() {
      double reference = referenceOhms();
      double y = 0;
      for (String line : Lettering.wrap(reference(), font, plate.width() - 40)) {
        y += 14;
        plate.text(line, font, 36, y, Align.LEFT, Palette::ink);
      }
      if (!Double.isNaN(reference)) {
        plate.line(4, 10, 30, 10, Palette::accent, 1.6, 5, 3);
      }
      double top = y + 6;
      double end = top + sheet.conductors().size() * row;
      y = top;
      for (Conductor c : sheet.conductors()) {
        if (("conductor:" + c.port()).equals(selectedKey)) {
          plate.fill(new Rectangle2D.Double(0, y, plate.width(), row), Palette::selected);
        }
        y += row;
      }
      if (!Double.isNaN(reference)) {
        plate.line(x(reference), top, x(reference), end, Palette::accent, 1.6, 5, 3);
      }
      y = top;
      for (Conductor c : sheet.conductors()) {
        conductor(c, y);
        y += row;
      }
      axis(end + 2);
      plate.height(legend(end + 24) + 4);
      return plate;
    }

    private void conductor(Conductor c, double top) {
      double y = top + row / 2;
      double base = y + 3.6;
      plate.text(c.port(), bold, 0, base, Align.LEFT, Palette::ink);
      if (c.colour() != null) {
        String colour = Lettering.shorten(Lettering.clean(c.colour()), font, left - ports - 8);
        plate.text(colour, font, ports, base, Align.LEFT, Palette::ink);
      }
      Tone tone = Symbols.tone(c.standing());
      plate.line(left, y, right, y, Palette::line, 0.5);
      if (c.ohms() == null) {
        plate.hatch(new Rectangle2D.Double(left, y - 5, right - left, 10), Palette::line, 6, 0.7);
      } else {
        double u = Figures.K * c.ohms().u();
        Symbols.bracket(plate, x(c.ohms().value() - u), x(c.ohms().value() + u), y, tone);
        double x = x(c.ohms().value());
        plate.fill(new Ellipse2D.Double(x - DOT, y - DOT, 2 * DOT, 2 * DOT), tone);
      }
      Symbols.standing(plate, c.standing(), right + 12, y, 8);
      plate.text(value(c), font, plate.width(), base, Align.RIGHT, Palette::ink);
      plate.spot(
          "conductor:" + c.port(), new Rectangle2D.Double(0, top, plate.width(), row), words(c));
    }

    private void axis(double y) {
      plate.line(left, y, right, y, Palette::line, 1);
      double step = RouteAxis.niceStep(fullOhms, (right - left) / 58);
      for (int i = 0; i * step <= fullOhms; i++) {
        double x = x(i * step);
        plate.line(x, y, x, y + 5, Palette::line, 1);
        String label = i == 0 ? "0 \u03a9" : Figures.ohms(i * step);
        plate.text(label, font, x, y + 16, Align.CENTRE, Palette::faint);
      }
    }

    private double legend(double top) {
      Legend legend = new Legend();
      legend.add(
          "resistance \u00b1 U (k = 2), contacts taken off",
          (p, x, y) -> {
            Symbols.bracket(p, x + 4, x + 26, y, Palette::ink);
            p.fill(new Ellipse2D.Double(x + 15 - DOT, y - DOT, 2 * DOT, 2 * DOT), Palette::ink);
          });
      for (Standing s : Standing.values()) {
        legend.add(s.word(), (p, x, y) -> Symbols.standing(p, s, x + Legend.SAMPLE / 2, y, 8));
      }
      return legend.lay(plate, top);
    }
  }
}
