package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.FarEndWatch.Sight;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/** Five conductors of half an ohm before an ideal board, and what comes onto their far ends. */
class FarEndWatchTest {
  private static final double[] ARMS = {49.9, 90.9, 133, 174, 215};
  private static final int CONDUCTORS = 5;
  private static final int STAR = Ports.COUNT + CONDUCTORS;

  private Consumer<Network> faults = net -> {};
  private Consumer<Network> farEnd = net -> {};

  private IdealBoard board() {
    double[] farads = new double[Ports.COUNT];
    Arrays.fill(farads, 15e-12);
    Arrays.fill(farads, 0, CONDUCTORS, 1.5e-9);
    farads[Ports.METAL] = 3e-10;
    return new IdealBoard(
        CONDUCTORS + 1,
        farads,
        net -> {
          for (int port = 0; port < CONDUCTORS; port++) {
            net.join(port, Ports.COUNT + port, 1 / 0.5);
          }
          faults.accept(net);
          farEnd.accept(net);
        });
  }

  private OpenResult open() {
    OpenPhase phase = new OpenPhase(IdealBoard.MODEL, (1 << Ports.COUNT) - 1, 0);
    board().run(phase);
    return phase.result();
  }

  private Sight see(FarEndWatch watch, long micros) {
    return watch.observe(board().measure(watch.round()), micros);
  }

  private static Consumer<Network> plug(double[] arms, int... ports) {
    return net -> {
      for (int port : ports) {
        net.join(Ports.COUNT + port, STAR, 1 / (arms[port] + 0.011));
      }
    };
  }

  private static Consumer<Network> skin(double ohms, int... ports) {
    return net -> {
      for (int port : ports) {
        net.join(Ports.COUNT + port, STAR, 1 / ohms);
      }
    };
  }

  @Test
  void whatIsOnTheFarEndIsToldApart() {
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open(), 0);
    Sight sight = see(watch, 0);
    assertThat(sight).isEqualTo(new Sight(FarEndKind.OPEN, List.of(), true, "far end open"));
    farEnd = plug(ARMS, 0, 1, 2, 3, 4);
    sight = see(watch, 1);
    assertThat(sight.kind()).isEqualTo(FarEndKind.CODED);
    assertThat(sight.connected()).containsExactly(0, 1, 2, 3, 4);
    assertThat(sight.words()).isEqualTo("coded plug on 5 conductors");
    farEnd = plug(new double[5], 0, 1, 3);
    sight = see(watch, 2);
    assertThat(sight.kind()).isEqualTo(FarEndKind.TIE);
    assertThat(sight.words()).isEqualTo("tie plug on 3 conductors");
    assertThat(sight.connected()).containsExactly(0, 1, 3);
  }

  @Test
  void aPlugIsSettledWhenItHasBeenStillForTheDwell() {
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open(), 2_000_000);
    farEnd = plug(ARMS, 0, 1, 2, 3, 4);
    assertThat(see(watch, 1_000_000).settled()).isFalse();
    assertThat(see(watch, 2_999_999).settled()).isFalse();
    double[] before = watch.lastOhms();
    assertThat(see(watch, 3_000_000).settled()).isTrue();
    assertThat(watch.unchangedSince(before)).isTrue();
    farEnd = plug(ARMS, 0, 1, 2, 3);
    assertThat(see(watch, 3_100_000).settled()).isFalse();
    assertThat(watch.unchangedSince(before)).isFalse();
    assertThat(see(watch, 5_100_000).settled()).isTrue();
  }

  @Test
  void fingersAreNoPlug() {
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open(), 0);
    farEnd = skin(200e3, 0, 2);
    Sight sight = see(watch, 0);
    assertThat(sight.kind()).isNull();
    assertThat(sight.settled()).isFalse();
    assertThat(sight.words()).isEqualTo("skin on bare ends at P1 and P3");
    farEnd =
        net -> {
          plug(ARMS, 0, 1, 2).accept(net);
          skin(200e3, 3).accept(net);
        };
    sight = see(watch, 1);
    assertThat(sight.kind()).isNull();
    assertThat(sight.connected()).containsExactly(0, 1, 2);
    assertThat(sight.words()).contains("P4");
  }

  /** A pair that touches at the near end hangs on a plug as one. */
  @Test
  void conductorsThatTouchAreSeenOnAPlugToo() {
    faults = net -> net.join(0, 1, 1 / 0.2);
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open(), 0);
    assertThat(see(watch, 0).kind()).isEqualTo(FarEndKind.OPEN);
    farEnd = plug(ARMS, 2, 3, 4);
    assertThat(see(watch, 1).connected()).containsExactly(2, 3, 4);
    farEnd = plug(ARMS, 0, 1, 2, 3, 4);
    assertThat(see(watch, 2).connected()).containsExactly(0, 1, 2, 3, 4);
    farEnd = plug(new double[5], 0, 1, 2, 3, 4);
    assertThat(see(watch, 3).kind()).isEqualTo(FarEndKind.TIE);
  }

  @Test
  void whereAllTouchAPlugPullsThemLower() {
    faults =
        net ->
            net.join(0, 1, 1 / 300.0)
                .join(1, 2, 1 / 300.0)
                .join(2, 3, 1 / 300.0)
                .join(3, 4, 1 / 300.0);
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open(), 0);
    assertThat(see(watch, 0).kind()).isEqualTo(FarEndKind.OPEN);
    farEnd = plug(new double[5], 0, 1, 2, 3, 4);
    assertThat(see(watch, 1).kind()).isEqualTo(FarEndKind.TIE);
  }

  @Test
  void aFaultThatIsNotThereAnyMoreWasSomethingElse() {
    faults = net -> net.join(0, 1, 1 / 50e3);
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open(), 0);
    see(watch, 0);
    assertThat(watch.gone()).isFalse();
    faults = net -> {};
    see(watch, 1);
    assertThat(watch.gone()).isTrue();
    assertThat(watch.singleOhms()[0]).isGreaterThan(1e6);
  }

  @Test
  void twoRoundsAreAlikeWithinWhatACoarseRoundTells() {
    double[] a = new double[2 * Ports.COUNT];
    Arrays.fill(a, 100);
    double[] b = a.clone();
    b[3] = 103.9; // 1 % and 3 ohm
    assertThat(FarEndWatch.alike(a, b)).isTrue();
    b[3] = 104.1;
    assertThat(FarEndWatch.alike(a, b)).isFalse();
    b[3] = 100;
    b[Ports.METAL] = 5000;
    b[Ports.COUNT + Ports.METAL] = 5000;
    assertThat(FarEndWatch.alike(a, b)).isTrue(); // bare metal gathers hum
    Arrays.fill(a, 10_000);
    Arrays.fill(b, 14_000);
    assertThat(FarEndWatch.alike(a, b)).isTrue(); // 30 % of what is high
    Arrays.fill(b, 15_000);
    assertThat(FarEndWatch.alike(a, b)).isFalse();
    Arrays.fill(a, 2e6);
    Arrays.fill(b, 1e9);
    assertThat(FarEndWatch.alike(a, b)).isTrue();
  }

  private static List<Reading> readings(WindingPhase phase, double[] driven, double[] left) {
    List<Reading> readings = new ArrayList<>();
    List<Probe> probes = phase.next();
    assertThat(probes).hasSize(3 * driven.length);
    for (int k = 0; k < probes.size(); k++) {
      double amps = k % 3 == 0 ? driven[k / 3] : k % 3 == 1 ? left[k / 3] : 0;
      readings.add(
          new Reading(
              probes.get(k), amps * IdealBoard.MODEL.lowReferenceOhms(), Double.NaN, false));
    }
    return readings;
  }

  /** A winding's current goes on, backwards through the reference; copper's is gone at once. */
  @Test
  void aWindingsCurrentLasts() {
    WindingPhase phase = new WindingPhase(IdealBoard.MODEL, 0b1011, 0b1111);
    phase.accept(
        readings(phase, new double[] {2e-3, 2e-3, 0.5e-3}, new double[] {-260e-6, 0, 260e-6}));
    assertThat(phase.windings()).isEqualTo(0b1);
    assertThat(phase.copper()).isZero(); // a jumper hides a winding at its other end
    assertThat(phase.next()).isEmpty();
    WindingPhase plain = new WindingPhase(IdealBoard.MODEL, 0b1011, 0b1111);
    plain.accept(
        readings(plain, new double[] {2e-3, 1.1e-3, 0.9e-3}, new double[] {-240e-6, 260e-6, 0}));
    assertThat(plain.windings()).isZero();
    assertThat(plain.copper()).isEqualTo(0b1);
    assertThat(new WindingPhase(IdealBoard.MODEL, 0b1, 0b1111).next()).isEmpty();
  }

  @Test
  void theTrendOfEachConductorIsReadByItself() {
    double[] ohms = {0.5, 0.7, 0.9};
    Consumer<Network> tied =
        net -> {
          for (int port = 0; port < 3; port++) {
            net.join(port, STAR, 1 / ohms[port]);
          }
        };
    double[] farads = new double[Ports.COUNT];
    Arrays.fill(farads, 15e-12);
    IdealBoard board = new IdealBoard(CONDUCTORS + 1, farads, tied);
    double dividers = 3 * 116 / 1.02e6; // three ports', each beside reference and path
    TrendPlan plan = new TrendPlan(IdealBoard.MODEL, 0b111, 1);
    assertThat(plan.readings()).isEqualTo(3);
    List<Reading> round = board.measure(plan.probes());
    assertThat(round).hasSize(3 * TrendPlan.READINGS_EACH);
    for (int k = 0; k < 3; k++) {
      assertThat(plan.port(k)).isEqualTo(k);
      List<Reading> four =
          round.subList(k * TrendPlan.READINGS_EACH, (k + 1) * TrendPlan.READINGS_EACH);
      assertThat(plan.ohms(four).orElseThrow().value())
          .isCloseTo(ohms[k], within(dividers * ohms[k]));
    }
    TrendPlan two = new TrendPlan(IdealBoard.MODEL, 0b101, 1);
    assertThat(two.readings()).isEqualTo(1);
    IdealBoard pair =
        new IdealBoard(
            CONDUCTORS + 1,
            farads,
            net -> net.join(0, STAR, 1 / ohms[0]).join(2, STAR, 1 / ohms[2]));
    assertThat(two.ohms(pair.measure(two.probes())).orElseThrow().value())
        .isCloseTo(1.4, within(dividers * 1.4));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new TrendPlan(IdealBoard.MODEL, 0b100, 1))
        .withMessage("ports=4 expectedOhms=1.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new TrendPlan(IdealBoard.MODEL, 0b101, 0));
  }
}
