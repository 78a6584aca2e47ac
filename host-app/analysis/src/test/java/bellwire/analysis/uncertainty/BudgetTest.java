package bellwire.analysis.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Budget.Line;
import bellwire.analysis.uncertainty.Budget.Shape;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import org.junit.jupiter.api.Test;

/** Additive budgets against the worked examples of JCGM 101:2008, clause 9 (gum.yaml). */
class BudgetTest {
  private static final int TRIALS = 400_000;
  private static final long SEED = 101;

  /** Five standard deviations of a share of 0.95 found in {@link #TRIALS} trials. */
  private static final double CHANCE = 5 * Math.sqrt(0.95 * 0.05 / TRIALS);

  /** 9.2.2 to 9.2.4: four normal and four rectangular inputs; the printed limit holds 95 %. */
  @Test
  void additiveModels101() {
    for (Row row : ReferenceTables.load("gum/jcgm-101-additive").rows()) {
      assertThat(row.status().decides()).isTrue();
      boolean normal = row.text("inputs").contains("normal");
      Budget budget = Budget.of();
      for (double deviation : row.numbers("deviations")) {
        budget =
            budget.and(
                normal
                    ? new Line("input", Shape.NORMAL, deviation)
                    : new Line("input", Shape.RECTANGULAR, deviation * Math.sqrt(3)));
      }
      double clause = row.lastPlace("uncertainty");
      assertThat(budget.u()).isCloseTo(row.number("uncertainty"), within(clause));
      // A limit printed to so many places holds 95 % to within that place.
      double u = budget.u();
      double high = row.number("high");
      double place = row.lastPlace("high");
      assertThat(budget.coverage((high + place) / u, TRIALS, SEED))
          .as(row.text("clause") + " seed=" + SEED)
          .isGreaterThan(0.95 - CHANCE);
      assertThat(budget.coverage((high - place) / u, TRIALS, SEED))
          .as(row.text("clause") + " seed=" + SEED)
          .isLessThan(0.95 + CHANCE);
    }
  }

  /**
   * 9.3, mass calibration: buoyancy is the product of two rectangular factors, air density ±0.1 and
   * reciprocal densities, the one of the weight dominating. First order gives 0.0539 mg, a budget
   * with the product what the standard's Monte Carlo gives, as far as neglecting the lesser density
   * allows: its variance is (50/1000)² of the other's.
   */
  @Test
  void massCalibration101() {
    double buoyancy = 100_000 * 0.1 * (1 / 7000.0 - 1 / 9000.0) / 2;
    Budget budget =
        Budget.of(
            new Line("reference weight", Shape.NORMAL, 0.050),
            new Line("difference", Shape.NORMAL, 0.020),
            new Line("buoyancy", Shape.PRODUCT, buoyancy));
    Row expected = ReferenceTables.load("gum/jcgm-101-mass-results").row("method", "Monte Carlo");
    assertThat(budget.u()).isCloseTo(expected.number("uncertaintyMg"), within(0.0005));
    double half = (expected.number("highMg") - expected.number("lowMg")) / 2;
    assertThat(budget.coverage(half / budget.u(), TRIALS, SEED))
        .as("seed=" + SEED)
        .isCloseTo(0.95, within(0.002));
  }

  /** A normal distribution's coverage: 0.9545 at two, any table of the error function. */
  @Test
  void normalAndRectangularAlone() {
    Budget normal = Budget.of(new Line("noise", Shape.NORMAL, 3));
    assertThat(normal.coverage(2, TRIALS, SEED)).isCloseTo(0.95450, within(CHANCE));
    assertThat(normal.coverage(1, TRIALS, SEED)).isCloseTo(0.68269, within(2 * CHANCE));
    Budget rectangular = Budget.of(new Line("tolerance", Shape.RECTANGULAR, 3));
    assertThat(rectangular.u()).isCloseTo(Math.sqrt(3), within(1e-12));
    assertThat(rectangular.coverage(1, TRIALS, SEED))
        .isCloseTo(1 / Math.sqrt(3), within(3 * CHANCE));
    assertThat(rectangular.coverage(1.8, TRIALS, SEED)).isEqualTo(1);
    // P(|xy| ≤ t) of two factors up to 1 is t (1 − ln t).
    Budget product = Budget.of(new Line("drift", Shape.PRODUCT, 3));
    double t = 2 / 3.0;
    assertThat(product.coverage(2, TRIALS, SEED)).isCloseTo(t * (1 - Math.log(t)), within(CHANCE));
  }

  /** Its only error is nought, which no limit leaves out. */
  @Test
  void aBudgetOfNothingIsAlwaysKept() {
    assertThat(Budget.of().u()).isZero();
    assertThat(Budget.of().coverage(2, 10, SEED)).isEqualTo(1);
  }
}
