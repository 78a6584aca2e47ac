package bellwire.hardware;

import java.util.ArrayList;
import java.util.List;

/**
 * Preferred numbers of resistors, IEC 60063: E24, and E192, which holds E96. E192 is round(100 ·
 * 10^(i/192)) with 920 in the place of 919, from memory; E24 as published.
 */
public final class PreferredNumbers {
  private static final int[] E24 = {
    100, 110, 120, 130, 150, 160, 180, 200, 220, 240, 270, 300, 330, 360, 390, 430, 470, 510, 560,
    620, 680, 750, 820, 910
  };

  private static final List<Integer> DIGITS = digits();

  private PreferredNumbers() {}

  private static List<Integer> digits() {
    List<Integer> digits = new ArrayList<>();
    for (int number : E24) {
      digits.add(number);
    }
    for (int i = 0; i < 192; i++) {
      long number = Math.round(100 * Math.pow(10, i / 192.0));
      digits.add(number == 919 ? 920 : (int) number);
    }
    digits.add(1000);
    return digits;
  }

  /** The preferred number nearest to a value, as a ratio. */
  public static double nearest(double value) {
    double decade = Math.pow(10, Math.floor(Math.log10(value * (1 + 1e-9))));
    double best = Double.NaN;
    for (int number : DIGITS) {
      double candidate = number / 100.0 * decade;
      if (!(Math.abs(Math.log(candidate / value)) >= Math.abs(Math.log(best / value)))) {
        best = candidate;
      }
    }
    return best;
  }
}
