package bellwire.analysis.copper;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import bellwire.reference.Table;
import org.junit.jupiter.api.Test;

/**
 * Copper by gauge against published tables: test-fixtures/reference, copper.yaml, where each table
 * names its source and status.
 */
class GaugeTest {
  private static final double FOOT = 0.3048;

  /** 58 MS/m against the 0.017241 ohm·mm²/m that some tables were computed with: 2.4e-5. */
  private static final double CONSTANT = 3e-5;

  private static Table deciding(String name) {
    Table table = ReferenceTables.load("copper/" + name);
    assertThat(table.rows()).allMatch(row -> row.status().decides());
    return table;
  }

  private static double ohmsPerThousandFeet(Row row, double celsius) {
    return Gauge.awg(row.integer("awg")).ohmsPerMetre(celsius) * 1000 * FOOT;
  }

  /** A printed value is good to half its last place, and to what its constants differ from ours. */
  private static void assertPrinted(Row row, String cell, double got, double relative) {
    assertThat(got)
        .as(row.table() + " " + cell + " " + row.cells())
        .isCloseTo(
            row.number(cell), within(0.5 * row.lastPlace(cell) + relative * row.number(cell)));
  }

  private static double diameter(Gauge gauge) {
    return Math.sqrt(4 / Math.PI * gauge.squareMillimetres());
  }

  /** IEC Publication 28 (1913). */
  @Test
  void constants() {
    Table constants = deciding("constants");
    assertThat(Gauge.CONDUCTIVITY)
        .isEqualTo(constants.row("name", "conductivityMegasiemensPerMetre").number("value"));
    assertThat(Gauge.ALPHA)
        .isEqualTo(
            constants.row("name", "temperatureCoefficientAt20CelsiusPerKelvin").number("value"));
    double fromMass =
        constants.row("name", "massResistivityOhmGramsPerSquareMetre").number("value")
            / constants.row("name", "densityGramsPerCubicCm").number("value");
    assertThat(1 / Gauge.CONDUCTIVITY).isCloseTo(fromMass, within(1e-4 * fromMass));
    // 10.37 ohm·circular mil/ft, a circular mil being the area of a disc of 0.001 in.
    double circularMil = Math.PI / 4 * 0.0254 * 0.0254;
    assertPrinted(
        constants.row("name", "ohmCircularMilsPerFoot"),
        "value",
        FOOT / Gauge.CONDUCTIVITY / circularMil,
        0);
  }

  /** Floyd's table, the digits of NBS Circular 31; circular mils with it. */
  @Test
  void solidCopperAt20Celsius() {
    for (Row row : deciding("solid-20-celsius").rows()) {
      assertPrinted(row, "ohmsPerThousandFeet", ohmsPerThousandFeet(row, 20), CONSTANT);
      if (row.has("circularMils")) {
        double mils = diameter(Gauge.awg(row.integer("awg"))) / 0.0254;
        // The table's own 16 AWG is 6e-5 off its formula.
        assertPrinted(row, "circularMils", mils * mils, 7e-5);
      }
    }
    for (Row row : deciding("solid-20-celsius-computed").rows()) {
      Gauge gauge = Gauge.awg(row.integer("awg"));
      assertPrinted(row, "diameterMm", diameter(gauge), 0);
      assertPrinted(row, "areaSquareMm", gauge.squareMillimetres(), 0);
      assertPrinted(row, "ohmsPerThousandFeet", ohmsPerThousandFeet(row, 20), CONSTANT);
      assertPrinted(row, "ohmsPerKm", gauge.ohmsPerMetre(20) * 1000, CONSTANT);
    }
    for (Row row : deciding("solid-20-celsius-metric").rows()) {
      Gauge gauge = Gauge.awg(row.integer("awg"));
      assertPrinted(row, "diameterMm", diameter(gauge), 0);
      assertPrinted(row, "areaSquareMm", gauge.squareMillimetres(), 0);
      // 0.0210 for 18 AWG comes from 0.02095, which was rounded before: a tenth of a place more.
      assertThat(gauge.ohmsPerMetre(20))
          .as(row.toString())
          .isCloseTo(row.number("ohmsPerMetre"), within(0.6 * row.lastPlace("ohmsPerMetre")));
    }
    for (Row row : deciding("telephone-diameters").rows()) {
      // Nominal diameters round the formula up or down by a thousandth.
      assertThat(diameter(Gauge.awg(row.integer("awg"))))
          .isCloseTo(row.number("diameterMm"), within(row.lastPlace("diameterMm")));
    }
  }

  /** NEC chapter 9, table 8: solid, uncoated, at 75 °C; all other rows have more resistance. */
  @Test
  void solidCopperAt75Celsius() {
    for (Row row : deciding("code-75-celsius").rows()) {
      double feet = ohmsPerThousandFeet(row, 75);
      if (row.integer("strands") == 1) {
        // Its areas are rounded to three digits, 18 AWG most: 1620 for 1624.3 circular mils.
        double area = Math.abs(1 - row.number("circularMils") * 506.7075e-6 / areaOf(row));
        assertPrinted(row, "plainOhmsPerThousandFeet", feet, area + 1e-3);
        assertPrinted(row, "plainOhmsPerKm", feet / FOOT, area + 1e-3);
      } else {
        assertThat(feet).isLessThan(row.number("plainOhmsPerThousandFeet"));
      }
      assertThat(feet).isLessThan(row.number("coatedOhmsPerThousandFeet"));
    }
  }

  private static double areaOf(Row row) {
    return Gauge.awg(row.integer("awg")).squareMillimetres();
  }

  /**
   * IEC 60228's maxima: what a section of the nominal size has must lie below. By how much is the
   * standard's allowance: 4 to 6 % for solid copper up to 4 mm².
   */
  @Test
  void belowTheMaximumOfEveryMetricSize() {
    for (Row row : deciding("iec-60228-maximum-20-celsius").rows()) {
      Gauge gauge = Gauge.parse(row.text("areaSquareMm") + " mm2").orElseThrow();
      double ohmsPerKm = gauge.ohmsPerMetre(20) * 1000;
      assertThat(ohmsPerKm / row.number("solidPlainOhmsPerKm")).isBetween(0.92, 1.0);
      assertThat(ohmsPerKm).isLessThan(row.number("solidCoatedOhmsPerKm"));
      if (row.has("flexiblePlainOhmsPerKm")) {
        assertThat(ohmsPerKm).isLessThan(row.number("flexiblePlainOhmsPerKm"));
      }
    }
  }

  /** 1 + 0.00393 (75 − 20), and IEC 60228's factors k(t) = 250/(230 + t) back to 20 °C. */
  @Test
  void temperature() {
    Gauge gauge = Gauge.awg(18);
    double at20 = gauge.ohmsPerMetre(20);
    Row factor = deciding("constants-computed").row("name", "factorAt75Celsius");
    assertPrinted(factor, "value", gauge.ohmsPerMetre(75) / at20, 0);
    for (Row row : deciding("correction-to-20-celsius").rows()) {
      double celsius = row.number("celsius");
      // 1/250 against 0.00393 /K, and the standard's reciprocal is not linear either.
      double constants = Math.abs(0.004 - Gauge.ALPHA) * Math.abs(celsius - 20);
      assertPrinted(row, "factor", at20 / gauge.ohmsPerMetre(celsius), constants);
    }
  }

  @Test
  void readsWhatPeopleWrite() {
    assertThat(Gauge.parse("18 AWG")).contains(Gauge.awg(18));
    assertThat(Gauge.parse(" 18awg ")).contains(Gauge.awg(18));
    assertThat(Gauge.parse("0.75 mm²")).contains(new Gauge("0.75 mm2", 0.75));
    for (String bad :
        new String[] {"", "18", "41 AWG", "-1 AWG", "0 mm2", "NaN mm2", "1e9 mm2", "x AWG"}) {
      assertThat(Gauge.parse(bad)).as(bad).isEmpty();
    }
    assertThatThrownBy(() -> Gauge.awg(41)).hasMessage("awg=41");
    assertThatThrownBy(() -> new Gauge("none", 0)).hasMessage("squareMillimetres=0.0");
  }

  /** The gauge's formula is used from 0 to 40; no control cable is thicker than 100 mm². */
  @Test
  void theEndsOfTheGaugesAreTaken() {
    assertThat(Gauge.awg(0).label()).isEqualTo("0 AWG");
    assertThat(Gauge.awg(40).label()).isEqualTo("40 AWG");
    assertThat(Gauge.parse("0 AWG")).isPresent();
    assertThat(Gauge.parse("40 awg")).isPresent();
    assertThat(Gauge.parse("41 AWG")).isEmpty();
    assertThat(Gauge.parse("-1 AWG")).isEmpty();
    assertThat(Gauge.parse("100 mm2")).isPresent();
    assertThat(Gauge.parse("100.1 mm2")).isEmpty();
    assertThat(Gauge.parse("0 mm2")).isEmpty();
  }
}
