package bellwire.simbench.file;

import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Wire sizes as people write them. */
public final class Gauge {
  private static final Pattern AWG = Pattern.compile("(0{1,4}|[1-9]\\d?)\\s*AWG");
  private static final Pattern AREA = Pattern.compile("(\\d+\\.?\\d*|\\.\\d+)\\s*mm2");
  private static final int FINEST_AWG = 40;
  private static final double LARGEST_SQUARE_MM = 120;

  private Gauge() {}

  /**
   * Copper area of an AWG size: d = 0.127 mm · 92^((36 − n)/39), ASTM B258 (formula from memory;
   * its values agree with the tables in the tests).
   *
   * @param awg 0000 is −3, 0 is 0, up to 40
   * @return mm²
   */
  public static double awgSquareMillimetres(int awg) {
    double millimetres = 0.127 * Math.pow(92, (36 - awg) / 39.0);
    return Math.PI / 4 * millimetres * millimetres;
  }

  /** Area in mm² of a size like '18 AWG' or '0.75 mm2'; empty for one that does not exist. */
  static OptionalDouble squareMillimetres(String text) {
    Matcher awg = AWG.matcher(text);
    if (awg.matches()) {
      String digits = awg.group(1);
      int number = digits.startsWith("0") ? 1 - digits.length() : Integer.parseInt(digits);
      return number <= FINEST_AWG
          ? OptionalDouble.of(awgSquareMillimetres(number))
          : OptionalDouble.empty();
    }
    Matcher area = AREA.matcher(text);
    if (area.matches()) {
      double square = Double.parseDouble(area.group(1));
      return square >= 1e-3 && square <= LARGEST_SQUARE_MM
          ? OptionalDouble.of(square)
          : OptionalDouble.empty();
    }
    return OptionalDouble.empty();
  }
}
