package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.junit.jupiter.api.Test;

/** Gauge tables from the gauge formula (ASTM B258) and the resistivity of IEC 28. */
class CopperRecomputedTest {

  private static final double OHM_SQUARE_MM_PER_METRE = 0.017241;
  private static final double METRES_PER_1000_FEET = 304.8;

  private static double diameterMm(int awg) {
    return 0.127 * Math.pow(92, (36 - awg) / 39.0);
  }

  private static double areaSquareMm(int awg) {
    return Math.PI / 4 * diameterMm(awg) * diameterMm(awg);
  }

  private static double ohmsPerMetre(int awg) {
    return OHM_SQUARE_MM_PER_METRE / areaSquareMm(awg);
  }

  private static void near(Row row, String cell, double expected) {
    assertThat(row.number(cell))
        .as(row.table() + " " + row.cells())
        .isCloseTo(expected, within(row.lastPlace(cell) * 0.51));
  }

  @Test
  void computedColumnsFollowFromTheFormula() {
    for (Row row : ReferenceTables.load("copper/solid-20-celsius-computed").rows()) {
      int awg = row.integer("awg");
      near(row, "diameterMm", diameterMm(awg));
      near(row, "areaSquareMm", areaSquareMm(awg));
      near(row, "ohmsPerKm", 1000 * ohmsPerMetre(awg));
      near(row, "ohmsPerThousandFeet", METRES_PER_1000_FEET * ohmsPerMetre(awg));
    }
  }

  @Test
  void publishedTableAgreesWithinItsLastDigit() {
    for (Row row : ReferenceTables.load("copper/solid-20-celsius").rows()) {
      int awg = row.integer("awg");
      assertThat(row.number("ohmsPerThousandFeet"))
          .as("awg=" + awg)
          .isCloseTo(
              METRES_PER_1000_FEET * ohmsPerMetre(awg),
              within(row.lastPlace("ohmsPerThousandFeet")));
      if (row.has("circularMils")) {
        double mils = diameterMm(awg) / 0.0254;
        // The page's 16 AWG is 6e-5 away from the formula, more than its last digit.
        assertThat(row.number("circularMils")).isCloseTo(mils * mils, within(1e-4 * mils * mils));
      }
    }
    for (Row row : ReferenceTables.load("copper/solid-20-celsius-metric").rows()) {
      int awg = row.integer("awg");
      assertThat(row.number("ohmsPerMetre"))
          .isCloseTo(ohmsPerMetre(awg), within(row.lastPlace("ohmsPerMetre")));
      assertThat(row.number("areaSquareMm"))
          .isCloseTo(areaSquareMm(awg), within(row.lastPlace("areaSquareMm")));
    }
  }

  @Test
  void codeTableAt75CelsiusAgreesForSolidPlainCopper() {
    double factor =
        ReferenceTables.load("copper/constants-computed")
            .row("name", "factorAt75Celsius")
            .number("value");
    assertThat(factor).isCloseTo(1 + 0.00393 * 55, within(1e-9));
    for (Row row : ReferenceTables.load("copper/code-75-celsius").rows()) {
      assertThat(row.number("coatedOhmsPerKm")).isGreaterThan(row.number("plainOhmsPerKm"));
      if (row.integer("strands") == 1) {
        double expected = METRES_PER_1000_FEET * ohmsPerMetre(row.integer("awg")) * factor;
        assertThat(row.number("plainOhmsPerThousandFeet"))
            .isCloseTo(expected, within(0.0015 * expected));
      }
      assertThat(row.number("plainOhmsPerKm"))
          .isCloseTo(
              row.number("plainOhmsPerThousandFeet") / 0.3048,
              within(
                  row.lastPlace("plainOhmsPerKm")
                      + row.lastPlace("plainOhmsPerThousandFeet") / 0.6));
    }
  }

  @Test
  void temperatureCorrectionHasItsClosedForm() {
    for (Row row : ReferenceTables.load("copper/correction-to-20-celsius").rows()) {
      BigDecimal closed =
          new BigDecimal(250)
              .divide(row.exact("celsius").add(new BigDecimal(230)), 3, RoundingMode.HALF_UP);
      assertThat(row.exact("factor")).isEqualByComparingTo(closed);
    }
  }

  @Test
  void maximaOfTheMetricClassesLieAboveTheirNominalArea() {
    for (Row row : ReferenceTables.load("copper/iec-60228-maximum-20-celsius").rows()) {
      double nominal = 1000 * OHM_SQUARE_MM_PER_METRE / row.number("areaSquareMm");
      assertThat(row.number("solidPlainOhmsPerKm")).isBetween(nominal, 1.1 * nominal);
      assertThat(row.number("solidCoatedOhmsPerKm"))
          .isGreaterThan(row.number("solidPlainOhmsPerKm"));
    }
  }

  @Test
  void worked() {
    Table table = ReferenceTables.load("copper/worked-examples");
    Row row = table.row("problem", "3.05");
    assertThat(row.number("resistivityOhmMetres") * row.number("lengthMetres") / row.number("ohms"))
        .isCloseTo(row.number("resultSquareMm") * 1e-6, within(1e-12));
    row = table.row("problem", "3.07");
    double area = Math.PI / 4 * Math.pow(row.number("diameterMm") * 1e-3, 2);
    assertThat(row.number("resistivityOhmMetres") * row.number("lengthMetres") / area)
        .isCloseTo(row.number("resultOhms"), within(0.0005));
    for (String problem : new String[] {"3.08", "3.11"}) {
      row = table.row("problem", problem);
      double kelvin = row.number("celsius") - row.number("referenceCelsius");
      assertThat(row.number("ohmsAtReference") * (1 + row.number("coefficientPerKelvin") * kelvin))
          .isCloseTo(row.number("resultOhms"), within(1e-9));
    }
  }
}
