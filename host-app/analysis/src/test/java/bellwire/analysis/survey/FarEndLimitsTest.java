package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.FarEndWatch.Sight;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What coarse rounds of given resistances are taken for. */
class FarEndLimitsTest {
  private static final double AMPS = 1e-3;

  private OpenFindings open = new OpenFindings(0, 1, 2, 3, 4);
  private final double[] ohms = new double[Ports.COUNT];
  private double clusterOhms = 1e9;
  private FarEndWatch watch = watch();

  FarEndLimitsTest() {
    Arrays.fill(ohms, 1e9);
  }

  private FarEndWatch watch() {
    return new FarEndWatch(IdealBoard.MODEL, open.result(), 0);
  }

  /** Each port's current and voltage by Ohm's law, the path back and the reference beside it. */
  private Sight see() {
    List<Reading> readings = new ArrayList<>();
    List<Probe> round = watch.round();
    for (int k = 0; k < round.size(); k += 2) {
      Probe probe = round.get(k);
      List<Integer> driven = Ports.list(probe.drive());
      double read = driven.size() > 1 ? clusterOhms : ohms[driven.get(0)];
      double back = 100 + 15.9 / Integer.bitCount(probe.returned());
      readings.add(new Reading(probe, 100 * AMPS, Double.NaN, false));
      readings.add(new Reading(round.get(k + 1), (read + back) * AMPS, Double.NaN, false));
    }
    return watch.observe(readings, 0);
  }

  /** Half the 84 ohm that two of the smallest arms have between them, about. */
  @Test
  void theMiddleOneTellsWhichPlug() {
    Arrays.fill(ohms, 0, 5, 700);
    ohms[1] = 41.9;
    ohms[2] = 0.5;
    ohms[4] = 0.5;
    assertThat(see().kind()).isEqualTo(FarEndKind.TIE);
    watch = watch();
    ohms[1] = 42.1;
    assertThat(see().kind()).isEqualTo(FarEndKind.CODED);
  }

  @Test
  void whatWasToldStaysAsLongAsItLooksAlike() {
    Arrays.fill(ohms, 0, 5, 41.9);
    assertThat(see().kind()).isEqualTo(FarEndKind.TIE);
    Arrays.fill(ohms, 0, 5, 42.3);
    assertThat(see().kind()).isEqualTo(FarEndKind.TIE);
    Arrays.fill(ohms, 0, 5, 50);
    assertThat(see().kind()).isEqualTo(FarEndKind.CODED);
  }

  @Test
  void upToThreeKilohmsAConductorHangsOnThePlug() {
    Arrays.fill(ohms, 0, 3, 100);
    ohms[2] = 2999;
    assertThat(see().connected()).containsExactly(0, 1, 2);
    ohms[2] = 3001;
    assertThat(see().connected()).containsExactly(0, 1);
  }

  /** Hands have less than 5 Mohm, or what they hold is not seen. */
  @Test
  void skinOnBareEndsIsSeenUpToFiveMegohms() {
    ohms[0] = 4.9e6;
    Sight skin = see();
    assertThat(skin.kind()).isNull();
    assertThat(skin.words()).isEqualTo("skin on bare ends at P1");
    ohms[0] = 5.1e6;
    assertThat(see().kind()).isEqualTo(FarEndKind.OPEN);
  }

  /** Ten times what hangs on a plug, and far less than the cable's own leakage. */
  @Test
  void aHandOnAPluggedCableIsSeenAboveThirtyKilohms() {
    Arrays.fill(ohms, 0, 3, 100);
    ohms[3] = 30_100;
    Sight sight = see();
    assertThat(sight.kind()).isNull();
    assertThat(sight.settled()).isFalse();
    assertThat(sight.words()).isEqualTo("skin on bare ends at P4");
    ohms[3] = 29_900;
    assertThat(see().kind()).isEqualTo(FarEndKind.CODED);
  }

  /** What leaks 100 kohm to a cluster that now hangs on the plug reads that leakage, no less. */
  @Test
  void theCablesOwnLeakageIsNoHand() {
    open = new OpenFindings(0, 1, 2, 3, 4).joined(3, 4, 5).leaking(3, 0, 1e5, 100);
    watch = watch();
    Arrays.fill(ohms, 0, 3, 100);
    clusterOhms = 31_000; // 0.31 of it
    assertThat(see().kind()).isEqualTo(FarEndKind.CODED);
    clusterOhms = 29_000;
    assertThat(see().kind()).isEqualTo(FarEndKind.CODED); // below ten times of what hangs on it
    open = new OpenFindings(0, 1, 2, 3, 4).joined(3, 4, 5).leaking(3, 0, 2e5, 100);
    watch = watch();
    clusterOhms = 31_000; // 0.155 of 200 kohm
    assertThat(see().kind()).isNull();
  }

  /** One that touches another reads low by itself; only both against the rest show a plug. */
  @Test
  void aClusterIsSeenAsOne() {
    open = new OpenFindings(0, 1, 2, 3, 4).joined(0, 1, 5);
    watch = watch();
    assertThat(watch.round()).hasSize(12);
    ohms[0] = 5;
    ohms[1] = 6;
    assertThat(see().kind()).isEqualTo(FarEndKind.OPEN);
    assertThat(watch.lastOhms()[0]).isCloseTo(1e9, within(1.0));
    assertThat(watch.lastOhms()[Ports.COUNT]).isCloseTo(5, within(1e-6));
    assertThat(watch.lastOhms()[Ports.COUNT + 1]).isCloseTo(6, within(1e-6));
    assertThat(watch.singleOhms()[1]).isCloseTo(6, within(1e-6));
    clusterOhms = 120;
    Arrays.fill(ohms, 2, 5, 100);
    assertThat(see().connected()).containsExactly(0, 1, 2, 3, 4);
    assertThat(watch.lastOhms()[0]).isCloseTo(120, within(1e-6));
    assertThat(watch.lastOhms()[1]).isCloseTo(120, within(1e-6));
  }

  /** 1 kohm between P1 and P2 before: more than twice as much and 3 ohm is another cable. */
  @Test
  void aFaultThatReadsTwiceAsHighIsNotTheOneThatWasFound() {
    open.leaking(0, 1, 1000, 1);
    watch = watch();
    ohms[0] = 2002;
    ohms[1] = 2002;
    see();
    assertThat(watch.gone()).isFalse();
    ohms[0] = 2004;
    see();
    assertThat(watch.gone()).isTrue();
  }

  /** Above a megohm a coarse round reads hum rather than resistance. */
  @Test
  void whatACoarseRoundDoesNotReadIsNotMissed() {
    open.leaking(0, 1, 1.01e6, 1);
    watch = watch();
    see();
    assertThat(watch.gone()).isFalse();
    open = new OpenFindings(0, 1, 2, 3, 4).leaking(0, 1, 0.99e6, 1);
    watch = watch();
    see();
    assertThat(watch.gone()).isTrue();
  }

  @Test
  void twoRoundsDifferAtTheEdgeOfWhatIsReadByResistance() {
    double[] a = new double[2 * Ports.COUNT];
    double[] b = new double[2 * Ports.COUNT];
    a[0] = 2900;
    b[0] = 3100; // above 3 kohm by 30 %
    assertThat(FarEndWatch.alike(a, b)).isTrue();
    b[0] = 2960; // below by 1 % and 3 ohm
    assertThat(FarEndWatch.alike(a, b)).isFalse();
    a[0] = 0.9e6;
    b[0] = 1.5e6; // one of them is read
    assertThat(FarEndWatch.alike(a, b)).isFalse();
    assertThat(FarEndWatch.alike(b, a)).isFalse();
  }
}
