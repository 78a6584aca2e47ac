package bellwire.app.document;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Place;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/**
 * Figures as the report shows them. Uncertainties are expanded by {@link #K}; a figure and its unit
 * are not parted between lines.
 *
 * @param feet whether lengths are in feet
 */
record Figures(ZoneId zone, boolean feet) {
  /** Coverage factor: some 95 % for a normal distribution (GUM 6.3.3). */
  static final double K = 2;

  private static final double METRES_PER_FOOT = 0.3048;
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d\u00a0MMM\u00a0uuuu HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter SHORT =
      DateTimeFormatter.ofPattern("d MMM uuuu", Locale.ENGLISH);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);
  private static final String[] OHMS = {"ohm", "kohm", "Mohm", "Gohm"};

  String when(long unixMicros) {
    return WHEN.format(Instant.EPOCH.plus(unixMicros, ChronoUnit.MICROS).atZone(zone));
  }

  /** As short as a label wants it. */
  String date(Instant instant) {
    return SHORT.format(instant.atZone(zone));
  }

  String day(Instant instant) {
    return DAY.format(instant.atZone(zone));
  }

  /** '0.515 ± 0.015 ohm', '12.4 ± 2.2 Mohm': U is 2·u. */
  static String ohms(Quantity ohms) {
    int k = 0;
    double scale = 1;
    while (Math.abs(ohms.value()) / scale >= 1000 && k < OHMS.length - 1) {
      scale *= 1000;
      k++;
    }
    return unparted(new Quantity(ohms.value() / scale, K * ohms.u() / scale, OHMS[k]).toString());
  }

  /** 'above 212.0 Mohm', rounded down. */
  static String above(double ohms) {
    int k = 0;
    double x = ohms;
    while (x >= 1000 && k < OHMS.length - 1) {
      x /= 1000;
      k++;
    }
    return unparted(
        String.format(
            Locale.ROOT, x >= 100 ? "above %.0f %s" : "above %.1f %s", floor(x), OHMS[k]));
  }

  private static double floor(double x) {
    return x >= 100 ? Math.floor(x) : Math.floor(x * 10) / 10;
  }

  /** '24.5 ± 0.6 m'. */
  String length(Quantity metres) {
    double unit = feet ? METRES_PER_FOOT : 1;
    return unparted(
        new Quantity(metres.value() / unit, K * metres.u() / unit, feet ? "ft" : "m").toString());
  }

  /** What a survey wrote of a finding, with its place. */
  String sentence(Finding finding) {
    Place at = finding.at();
    return at == null ? finding.words() : finding.words() + ", " + place(at) + " (k\u00a0=\u00a02)";
  }

  /** A length that was told and not measured. */
  String told(double metres) {
    return unparted(
        String.format(
            Locale.ROOT, feet ? "%.0f ft" : "%.1f m", feet ? metres / METRES_PER_FOOT : metres));
  }

  /** '0.62 ± 0.04 of the run, 14.9 ± 0.9 m from the near end'. */
  String place(Place place) {
    Quantity f = place.fraction();
    String run = unparted(new Quantity(f.value(), K * f.u(), "").toString().strip());
    Quantity metres = place.metres();
    String where = run + " of the run";
    if (metres != null) {
      where += ", " + length(metres) + " from the near end";
    }
    return place.decided() ? where : where + ", not certain enough to go there";
  }

  static String unparted(String figure) {
    return figure.replace(' ', '\u00a0');
  }
}
