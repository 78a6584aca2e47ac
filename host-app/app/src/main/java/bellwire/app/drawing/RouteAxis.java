package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.Plate.Align;
import java.awt.Font;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/** The axis of a run: metres, feet, or per cent where its length is not known. */
final class RouteAxis {
  private static final double LEAST_STEP = 52;

  private final Plate plate;
  private final double left;
  private final double right;
  private final @Nullable Quantity shown;
  private final Font font = Lettering.regular(Drawing.TYPE);

  RouteAxis(Plate plate, Run run, @Nullable Quantity length, double left, double right) {
    this.plate = plate;
    this.left = left;
    this.right = right;
    shown = length == null ? null : Figures.length(length, run);
  }

  /** Draws it below top; returns where it ends. */
  double lay(double top) {
    double full = shown == null ? 100 : shown.value();
    plate.line(left, top, right, top, Palette::line, 1);
    double step = niceStep(full, (right - left) / LEAST_STEP);
    for (int i = 0; i * step <= full * (1 + 1e-9); i++) {
      double x = left + (right - left) * i * step / full;
      plate.line(x, top, x, top + 5, Palette::line, 1);
      String label =
          new BigDecimal(i * step)
              .setScale(6, java.math.RoundingMode.HALF_UP)
              .stripTrailingZeros()
              .toPlainString();
      plate.text(label, font, x, top + 16, Align.CENTRE, Palette::faint);
    }
    plate.line(right, top, right, top + 5, Palette::line, 1);
    String words = caption();
    double wide = Lettering.width(words, font);
    double middle = (left + right) / 2;
    double x = Math.max(0, Math.min(middle - wide / 2, plate.width() - wide));
    for (String line : Lettering.wrap(words, font, plate.width())) {
      top += 15;
      plate.text(line, font, x, top + 15, Align.LEFT, Palette::faint);
    }
    return top + 20;
  }

  private String caption() {
    if (shown == null) {
      return "% of the run from the near end; its length is not known";
    }
    String unit = shown.unit().equals("ft") ? "feet" : "metres";
    String length =
        shown.u() == 0
            ? BigDecimal.valueOf(shown.value())
                    .setScale(1, java.math.RoundingMode.HALF_UP)
                    .stripTrailingZeros()
                    .toPlainString()
                + " "
                + shown.unit()
            : Figures.expanded(shown) + " (k = 2)";
    return unit + " from the near end; the run is " + length;
  }

  /** 1, 2 or 5 times a power of ten, so that at most so many steps fit. */
  static double niceStep(double full, double most) {
    double least = full / Math.max(1, most);
    double power = Math.pow(10, Math.floor(Math.log10(least)));
    for (double factor : new double[] {1, 2, 5}) {
      if (factor * power >= least * (1 - 1e-9)) {
        return factor * power;
      }
    }
    return 10 * power;
  }
}
