package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Budget.Line;
import bellwire.analysis.uncertainty.Budget.Shape;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What a survey with one plug only says, and how surely. */
class CodedPlugAloneTest {
  private static final Criteria CRITERIA = Criteria.standard();
  private static final double CONTACTS = 2 * CRITERIA.contactOhms();
  private static final double[] ARMS = {49.9, 90.9, 133, 174, 215, 255, 301, 348};
  private static final Plug PLUG = new Plug(ARMS, 1e-4, 5e-6, 15);
  private static final int[] FAR = {3, 1, 5, 4};
  private static final double U = 2e-4;

  /** NBS Circular 31's 6.385 ohm a thousand feet of 18 AWG at 20 °C, as reference/copper has it. */
  private static final double AWG_18_OHMS_PER_METRE = 6.385 / 304.8;

  private final double[] ohms = {0.500, 0.501, 0.499, 0.502};
  private OpenFindings open = new OpenFindings(0, 1, 2, 3, 16);
  private CableFacts facts = CableFacts.unknown();

  private StarResult star(boolean coded) {
    Map<Integer, Quantity> arms = new HashMap<>();
    for (int port = 0; port < ohms.length; port++) {
      double arm = ohms[port] + CONTACTS + (coded ? ARMS[FAR[port] - 1] : 0);
      arms.put(port, Quantity.ohms(arm, U));
    }
    return new StarResult(
        List.of(0, 1, 2, 3), arms, Map.of(), null, List.of(), 0, new double[Ports.COUNT]);
  }

  private SurveyResult result(StarResult coded, StarResult... ties) {
    return new SurveyAnalysis(IdealBoard.MODEL, CRITERIA, PLUG, facts)
        .result(open.result(), coded, List.of(ties));
  }

  private static ConductorResult on(SurveyResult result, int port) {
    return result.conductors().get(port);
  }

  /** Reading, resistor and two contacts: GUM 5.1.2. */
  @Test
  void aConductorIsTheArmLessResistorAndContacts() {
    Quantity first = on(result(star(true)), 0).ohms();
    assertThat(first.value()).isCloseTo(0.5, within(1e-9));
    double contacts = Math.sqrt(2) * 0.009 / Math.sqrt(3);
    double u = Math.sqrt(U * U + PLUG.u(2) * PLUG.u(2) + contacts * contacts);
    assertThat(first.u()).isCloseTo(u, within(1e-9));
  }

  /**
   * P4 has 20 ohm too much, and 100 kohm to others may lie behind them: 2 parts in ten thousand of
   * every arm.
   */
  @Test
  void aLeakageBehindAJointMakesEveryArmUncertain() {
    open = new OpenFindings(0, 1, 2, 3, 5, 16).joined(3, 5, 3000).leaking(3, 0, 1e5, 100);
    ohms[3] = 20;
    double wide = 2e-4 * (133 + 0.522);
    double contacts = Math.sqrt(2) * 0.009 / Math.sqrt(3);
    double u = Math.sqrt(U * U + wide * wide + PLUG.u(2) * PLUG.u(2) + contacts * contacts);
    assertThat(on(result(star(true)), 0).ohms().u()).isCloseTo(u, within(0.03 * u));
    ohms[3] = 7.9; // no more than a long conductor's own
    assertThat(on(result(star(true)), 0).ohms().u()).isLessThan(0.5 * u);
  }

  @Test
  void withoutATiePlugNothingStandsOutOfTheRest() {
    SurveyResult result = result(star(true));
    assertThat(result.conductors()).allMatch(c -> c.standing() == Standing.SOUND);
    assertThat(result.allSound()).isTrue();
  }

  /** One that is not sound, be it a conductor or what lies between two, and not all is. */
  @Test
  void allIsSoundOnlyIfEveryThingIs() {
    ohms[2] = 0.9;
    assertThat(result(star(true), star(false)).allSound()).isFalse();
    ohms[2] = 0.499;
    assertThat(result(star(true), star(false)).allSound()).isTrue();
    open.leaking(0, 1, 3e5, 1e3);
    SurveyResult leaking = result(star(true), star(false));
    assertThat(leaking.conductors()).allMatch(c -> c.standing() == Standing.SOUND);
    assertThat(leaking.allSound()).isFalse();
  }

  /** Which of the two that touch the bridge sits at is not known; the others are as before. */
  @Test
  void aBridgeToOnesThatTouchLeavesThePlaceOpen() {
    open = new OpenFindings(0, 1, 2, 3, 5, 16).joined(3, 5, 300).leaking(3, 0, 2000, 1);
    SurveyResult result = result(star(true), star(false));
    assertThat(on(result, 0).position()).isZero();
    assertThat(on(result, 1).position()).isEqualTo(1);
  }

  /** To bare metal there is no arm that could be wrong. */
  @Test
  void aBridgeToBareMetalIsPlacedWithTheTiePlug() {
    open.leaking(0, 16, 2000, 1);
    assertThat(on(result(star(true), star(false)), 0).position()).isEqualTo(3);
    ohms[0] = 0.9;
    assertThat(on(result(star(true), star(false)), 0).position()).isZero();
  }

  /** A conductor that reads nothing has no length, and no gauge fits it. */
  @Test
  void withoutResistanceThereIsNoLength() {
    Arrays.fill(ohms, -0.001);
    facts = new CableFacts(Gauge.awg(18), Double.NaN, 20, 2);
    assertThat(result(null, star(false)).length()).isNull();
    facts = new CableFacts(null, 20, 20, 2);
    assertThat(result(null, star(false)).gauge()).isNull();
    Arrays.fill(ohms, 0.001);
    facts = new CableFacts(Gauge.awg(18), Double.NaN, 20, 2);
    assertThat(result(null, star(false)).length().value())
        .isCloseTo(0.001 / AWG_18_OHMS_PER_METRE, within(1e-4));
  }

  /** Copper's 0.393 % a kelvin at 20 °C (IEC 60028), spread of 1 % from one to the next. */
  @Test
  void theLengthsUncertaintyIsThatOfTemperatureSectionAndReading() {
    facts = new CableFacts(Gauge.awg(18), Double.NaN, 20, 4);
    Quantity length = result(null, star(false)).length();
    Quantity warmer =
        new SurveyAnalysis(
                IdealBoard.MODEL, CRITERIA, PLUG, new CableFacts(Gauge.awg(18), Double.NaN, 20, 0))
            .result(open.result(), null, List.of(star(false)))
            .length();
    double byTemperature = Math.sqrt(Math.pow(length.u(), 2) - Math.pow(warmer.u(), 2));
    assertThat(byTemperature).isCloseTo(4 * 0.00393 * length.value(), within(0.01 * length.u()));
    assertThat(warmer.u()).isGreaterThan(CRITERIA.spread() * length.value());
  }

  @Test
  void theWholeBudgetHasContactsResistorAndItsTemperature() {
    Budget reading = Budget.of(new Line("reading", Shape.NORMAL, U));
    double contacts = Math.sqrt(2) * 0.009 / Math.sqrt(3);
    assertThat(ConductorResistance.budgetWithTie(reading, CRITERIA).u())
        .isCloseTo(Math.hypot(U, contacts), within(1e-12));
    assertThat(ConductorResistance.budgetWithCoded(reading, 3, PLUG, CRITERIA).u())
        .isCloseTo(
            Math.hypot(
                Math.hypot(U, contacts), Math.hypot(0.0133 / Math.sqrt(3), 133 * 7.5e-5 / 3)),
            within(1e-12));
  }

  /** A sum of two is told with every pair of positions that makes it, within what copper has. */
  @Test
  void aSumOfTwoNamesEveryPairOfPositions() {
    Plug ambiguous = new Plug(new double[] {100, 200, 150, 152}, 1e-4, 5e-6, 15);
    StarResult coded =
        new StarResult(
            List.of(0, 1),
            Map.of(),
            Map.of(),
            Quantity.ohms(303, 0.01),
            List.of(),
            0,
            new double[Ports.COUNT]);
    SurveyResult result =
        new SurveyAnalysis(IdealBoard.MODEL, CRITERIA, ambiguous, facts)
            .result(new OpenFindings(0, 1, 16).result(), coded, List.of());
    Finding two =
        result.findings().stream()
            .filter(f -> f.kind() == CableFinding.TWO_CONDUCTORS)
            .findFirst()
            .orElseThrow();
    assertThat(two.words())
        .isEqualTo("P1 and P2: together on the plug's positions 1 and 2 or 3 and 4");
    assertThat(two.ports()).containsExactly(0, 1);
  }
}
