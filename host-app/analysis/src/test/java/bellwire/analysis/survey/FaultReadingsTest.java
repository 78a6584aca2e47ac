package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Evidence;
import bellwire.analysis.fault.Ratio;
import bellwire.analysis.fault.Setting;
import bellwire.analysis.fault.Stage;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.survey.StarPhase.Observation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.assertj.core.data.Offset;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** The readings that the fault inference is given, with the uncertainty each of them has. */
class FaultReadingsTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final Criteria CRITERIA = Criteria.standard();
  private static final Plug PLUG = new Plug(new double[] {50, 90, 133, 174, 215}, 1e-4, 5e-6, 15);
  private static final double DIVIDER = 1.02e6;

  /** 3e-5 of the reading and 50 µohm are what the model leaves out. */
  private static double u(double ohms, double... parts) {
    double squares = 50e-6 * 50e-6 + Math.pow(3e-5 * ohms, 2);
    for (double part : parts) {
      squares += part * part;
    }
    return Math.sqrt(squares);
  }

  private static Offset<Double> nearly(double value) {
    return within(1e-9 * Math.abs(value));
  }

  private static JointTest conductors(double... ohms) {
    Map<Integer, Quantity> map = new LinkedHashMap<>();
    for (int port = 0; port < ohms.length; port++) {
      map.put(port, Quantity.ohms(ohms[port], 0.001));
    }
    return new JointTest(map, CRITERIA);
  }

  private static Evidence evidence(
      OpenResult open, @Nullable StarResult coded, @Nullable StarResult tie, JointTest test) {
    return new FaultEvidence(BOARD, CRITERIA, PLUG, open, coded, tie)
        .evidence(Map.of(), test, Map.of(), Map.of());
  }

  private static StarResult star(
      List<Integer> connected, Map<Integer, Quantity> arms, Observation... seen) {
    double[] coarse = new double[Ports.COUNT];
    Arrays.fill(coarse, 1e9);
    return new StarResult(connected, arms, Map.of(), null, List.of(seen), 0b11000, coarse);
  }

  private static Observation seen(int a, int b, int k, double ohms, double u) {
    return new Observation(a, b, k, Quantity.ohms(ohms, u), List.of());
  }

  /** Rectangular half-widths: 1e-4 of an arm, 5e-6 · 15 as a product of two, 9 mohm a contact. */
  @Test
  void whatIsKnownBeforehandIsTheBoardsThePlugsAndTheCommonRun() {
    OpenResult open = new OpenFindings(0, 1, 2, 16).result();
    Setting setting = evidence(open, null, null, conductors(0.5, 0.5, 0.5)).setting();
    assertThat(setting.ports()).isEqualTo(17);
    assertThat(setting.metal()).isEqualTo(16);
    assertThat(List.of(setting.pathOhms(), setting.referenceOhms(), setting.dividerOhms()))
        .containsExactly(15.9, 100.0, DIVIDER);
    assertThat(setting.common().value()).isEqualTo(0.5);
    assertThat(setting.spread()).isEqualTo(0.005);
    assertThat(setting.contactOhms()).isCloseTo(0.011, within(1e-12));
    assertThat(setting.contactU()).isCloseTo(0.009 / Math.sqrt(3), within(1e-12));
    assertThat(setting.armOhms()).containsExactly(50, 90, 133, 174, 215);
    assertThat(setting.armU()).isCloseTo(Math.hypot(1e-4 / Math.sqrt(3), 25e-6), within(1e-12));
    Evidence without =
        evidence(new OpenFindings(0, 1, 2).result(), null, null, conductors(0.5, 0.5));
    assertThat(without.setting().metal()).isEqualTo(-1);
  }

  @Test
  void theBackgroundIsTheOpenNetwork() {
    OpenResult open = new OpenFindings(0, 1, 2, 16).leaking(1, 16, 50_000, 10).result();
    double[][] siemens = evidence(open, null, null, conductors()).background();
    assertThat(siemens).hasDimensions(17, 17);
    assertThat(siemens[1][16]).isCloseTo(2e-5, within(1e-15));
    assertThat(siemens[16][1]).isEqualTo(siemens[1][16]);
    assertThat(siemens[0][1]).isZero();
  }

  /** The others that take no current are held; of the two that touch neither is. */
  @Test
  void aTouchIsAReadingOfTheOpenStage() {
    OpenResult open = new OpenFindings(0, 1, 2).joined(0, 1, 10).result();
    Evidence evidence = evidence(open, null, null, conductors());
    assertThat(evidence.stages()).hasSize(1);
    assertThat(evidence.stages().get(0).kind()).isEqualTo(Stage.Kind.OPEN);
    assertThat(evidence.stages().get(0).arms()).isEmpty();
    assertThat(evidence.ratios()).hasSize(1);
    double ohms = 10 * (1 + 115.9 / DIVIDER);
    assertThat(evidence.ratios().get(0).u()).isCloseTo(u(ohms, 0.01), nearly(0.01));
  }

  /** The leakage's way is driven and returned, all others at common. */
  @Test
  void aLoneLeakageOfAGroupIsKnownToATwoThousandthAndFiveOhm() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3).joined(1, 2, 0.4).leaking(0, 1, 10_000, 20).result();
    Evidence evidence = evidence(open, null, null, conductors());
    Ratio leak = evidence.ratios().get(1);
    assertThat(List.of(leak.stage(), leak.a(), leak.b(), leak.p(), leak.q()))
        .containsExactly(0, 0, 1, 0, 1);
    assertThat(leak.u()).isCloseTo(u(10_000, 20 + 5, 0.002 * 10_000), within(1e-6));
    for (int port = 0; port < Ports.COUNT; port++) {
      assertThat(leak.held().get(port)).as("port=" + port).isEqualTo(port > 2);
    }
  }

  @Test
  void leakagesOfOneGroupWidenEachOther() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3).leaking(0, 1, 10_000, 20).leaking(1, 2, 15_000, 20).result();
    List<Ratio> ratios = evidence(open, null, null, conductors()).ratios();
    assertThat(ratios).hasSize(2);
    assertThat(ratios.get(0).u()).isCloseTo(u(10_000, 25, 0.03 * 10_000), within(1e-6));
    assertThat(ratios.get(1).u()).isCloseTo(u(15_000, 25, 0.03 * 15_000), within(1e-6));
  }

  @Test
  void fourInAChainAreStillOneGroup() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3, 4);
    open.leaking(0, 1, 9_000, 1).leaking(1, 2, 9_000, 1).leaking(2, 3, 9_000, 1);
    Evidence evidence = evidence(open.result(), null, null, conductors());
    assertThat(evidence.groups()).hasSize(1);
    assertThat(evidence.groups().get(0).clusters())
        .containsExactlyInAnyOrder(List.of(0), List.of(1), List.of(2), List.of(3));
    assertThat(evidence.leaks()).isEmpty();
  }

  @Test
  void aPlugsArmsAreThoseReadTenOhmWhereOneWasNotAndNoneApart() {
    StarResult coded =
        star(
            List.of(0, 1, 2),
            Map.of(0, Quantity.ohms(50.5, 0.001), 1, Quantity.ohms(90.5, 0.001)),
            seen(0, 1, 2, 50.5, 0.001));
    Evidence evidence =
        evidence(
            new OpenFindings(0, 1, 2, 3).result(), coded, star(List.of(), Map.of()), conductors());
    assertThat(evidence.stages())
        .extracting(Stage::kind)
        .containsExactly(Stage.Kind.OPEN, Stage.Kind.CODED); // the tie plug was not read
    double[] arms = evidence.stages().get(1).arms();
    assertThat(arms).hasSize(17);
    assertThat(List.of(arms[0], arms[1], arms[2])).containsExactly(50.5, 90.5, 10.0);
    assertThat(arms[3]).isNaN();
    Ratio arm = evidence.ratios().get(0);
    assertThat(List.of(arm.stage(), arm.a(), arm.b(), arm.p(), arm.q()))
        .containsExactly(1, 0, 1, 0, 2);
    assertThat(arm.ohms()).isEqualTo(50.5);
    assertThat(arm.held().cardinality()).isEqualTo(2);
    assertThat(arm.held().get(3) && arm.held().get(4)).isTrue();
  }

  @Test
  void theTiePlugsReadingsAreAStageOfTheirOwn() {
    StarResult coded = star(List.of(0, 1, 2), Map.of(), seen(0, 1, 2, 50.5, 0.001));
    StarResult tie = star(List.of(0, 1, 2), Map.of(), seen(1, 2, 0, 0.5, 0.001));
    Evidence evidence = evidence(new OpenFindings(0, 1, 2).result(), coded, tie, conductors());
    assertThat(evidence.stages())
        .extracting(Stage::kind)
        .containsExactly(Stage.Kind.OPEN, Stage.Kind.CODED, Stage.Kind.TIE);
    assertThat(evidence.ratios()).extracting(Ratio::stage).containsExactly(1, 2);
  }

  /**
   * Two more dividers of 1.02 Mohm behind the arm: by one path or another, 0.52 ohm apart, 0.26
   * from the middle. An arm that was not read may be the plug's largest, and is no larger.
   */
  @Test
  void theOthersDividersDrawThroughTheArm() {
    double each = 2 / DIVIDER * 0.26;
    for (double[] armAndCounted :
        new double[][] {{100, 100}, {-100, 100}, {214, 214}, {1e6, 215}, {Double.NaN, 215}}) {
      double arm = armAndCounted[0];
      Map<Integer, Quantity> arms =
          Double.isNaN(arm) ? Map.of() : Map.of(0, Quantity.ohms(arm, 0.001));
      StarResult coded = star(List.of(0, 1, 2), arms, seen(0, 1, 1, 0.5, 1e-6));
      Ratio read =
          evidence(new OpenFindings(0, 1, 2).result(), coded, null, conductors()).ratios().get(0);
      double right = u(0.5, 1e-6, armAndCounted[1] * each);
      assertThat(read.u()).as("arm=" + arm).isCloseTo(right, nearly(right));
    }
  }

  /**
   * 10, 20 and 40 µS between the three: at the far end, and not at the near one, each lies behind a
   * run of 0.5 ohm beside at most 215 ohm of an arm.
   */
  @Test
  void aLeakageMayLieAnywhereAlongTheRun() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3)
            .leaking(0, 1, 1e5, 1)
            .leaking(0, 2, 5e4, 1)
            .leaking(1, 2, 25e3, 1)
            .leaking(1, 3, 21e3, 1) // of no port that is read
            .result();
    StarResult coded = star(List.of(0, 1, 2), Map.of(), seen(0, 1, 2, 0.5, 1e-6));
    double loads = 215 * 2 / DIVIDER * 0.26;
    Ratio known = evidence(open, coded, null, conductors(0.5, 0.5, 0.5)).ratios().get(0);
    double right = u(0.5, 1e-6, loads, 0.5 * 215 * 70e-6);
    assertThat(known.u()).isCloseTo(right, nearly(right));
    Ratio unknown = evidence(open, coded, null, conductors()).ratios().get(0);
    double wider = u(0.5, 1e-6, loads, 1 * 215 * 70e-6); // an ohm where nothing is known
    assertThat(unknown.u()).isCloseTo(wider, nearly(wider));
  }

  @Test
  void aPlaceOnThePlugCountsFromItsOddsOn() {
    Map<Integer, Place> places =
        Map.of(0, new Place(3, 1e6), 1, new Place(5, 0.99e6), 2, new Place(1, 1e9));
    Evidence evidence =
        new FaultEvidence(BOARD, CRITERIA, PLUG, new OpenFindings(0, 1, 2).result(), null, null)
            .evidence(Map.of(), conductors(), places, Map.of());
    assertThat(evidence.positions()).isEqualTo(Map.of(0, 2, 2, 0));
  }
}
