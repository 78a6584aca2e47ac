package bellwire.app.vigil;

import bellwire.analysis.vigil.Interval;
import bellwire.analysis.vigil.PoissonRate;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;

/** Times, rates and chances as a person reads them. */
final class VigilFigures {
  static final double CONFIDENCE = 0.95;
  private static final double HOUR = 3600;
  private static final double DAY = 24 * HOUR;

  /** Below so many an hour a day is the better measure. */
  private static final double RARE = 0.2;

  private VigilFigures() {}

  /** Two significant digits, without an exponent. */
  static String two(double value) {
    if (!Double.isFinite(value)) {
      return "any number";
    }
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(2));
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }

  /** '0.58 an hour (0.32 to 0.98 at 95 %)'; of none what that excludes. */
  static String rate(PoissonRate rate) {
    if (rate.events() == 0) {
      return "less often than " + excluded(rate.seconds()) + " at 95 %";
    }
    Interval of = rate.perSecond(CONFIDENCE);
    boolean daily = rate.perSecond() * HOUR < RARE;
    double unit = daily ? DAY : HOUR;
    return two(rate.perSecond() * unit)
        + (daily ? " a day (" : " an hour (")
        + two(of.low() * unit)
        + " to "
        + two(of.high() * unit)
        + " at 95 %)";
  }

  /** What no event excludes, one-sided: '1.0 an hour'. */
  static String excluded(double seconds) {
    double high = excludedPerSecond(seconds);
    boolean daily = high * HOUR < RARE;
    return two(high * (daily ? DAY : HOUR)) + (daily ? " a day" : " an hour");
  }

  static double excludedPerSecond(double seconds) {
    return new PoissonRate(0, seconds).perSecond(2 * CONFIDENCE - 1).high();
  }

  /** '0.4 %', 'below 0.001 %'. */
  static String chance(double chance) {
    double percent = 100 * chance;
    if (percent < 0.001) {
      return "below 0.001 %";
    }
    return two(percent) + " %";
  }

  /** '27 us', '1.2 ms', '3.4 s', '12.0 min', '5 h 20 min', '3 d 4 h'. */
  static String time(double micros) {
    if (micros < 1000) {
      return String.format(Locale.ROOT, "%.0f us", micros);
    }
    if (micros < 1e6) {
      return String.format(Locale.ROOT, micros < 10_000 ? "%.1f ms" : "%.0f ms", micros / 1e3);
    }
    if (micros < 120e6) {
      return String.format(Locale.ROOT, micros < 10e6 ? "%.2f s" : "%.1f s", micros / 1e6);
    }
    if (micros < 3600e6) {
      return String.format(Locale.ROOT, "%.1f min", micros / 60e6);
    }
    long minutes = Math.round(micros / 60e6);
    return minutes < 2880
        ? minutes / 60 + " h " + minutes % 60 + " min"
        : minutes / 1440 + " d " + minutes / 60 % 24 + " h";
  }

  /** Between two bounds: 'less than 1.0 ms', '310 to 312 ms'. */
  static String between(double least, double most) {
    if (least <= 0) {
      return "less than " + time(most);
    }
    String low = time(least);
    String high = time(most);
    if (low.equals(high)) {
      return low;
    }
    int unit = low.lastIndexOf(' ');
    boolean same = low.indexOf(' ') == unit && high.endsWith(low.substring(unit));
    return (same ? low.substring(0, unit) : low) + " to " + high;
  }

  /** 'once', 'twice', '14 times'. */
  static String times(long count) {
    return count == 1 ? "once" : count == 2 ? "twice" : count + " times";
  }
}
