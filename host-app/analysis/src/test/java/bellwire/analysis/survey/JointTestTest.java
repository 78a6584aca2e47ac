package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Quantity;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * False alarms on drawn healthy cables and detection of drawn joints, criteria as they come:
 * contacts rectangular from 2 to 20 mohm at either end, resistance normal about the cable's own by
 * 0.5 %.
 */
class JointTestTest {
  private static final Criteria CRITERIA = Criteria.standard();
  private static final int CABLES = Integer.getInteger("bellwire.cables", 20_000);
  private static final long SEED = 4_5;

  /** Readings of one cable with the tie plug, as ConductorResistance makes them. */
  private static Map<Integer, Quantity> draw(
      SplittableRandom random, int conductors, double ohms, double jointOhms) {
    Map<Integer, Quantity> readings = new LinkedHashMap<>();
    for (int port = 0; port < conductors; port++) {
      double arm = ohms * (1 + CRITERIA.spread() * random.nextGaussian());
      for (int contact = 0; contact < 2; contact++) {
        arm += random.nextDouble(CRITERIA.contactLowOhms(), CRITERIA.contactHighOhms());
      }
      arm += 0.001 * random.nextGaussian() + (port == 0 ? jointOhms : 0);
      readings.put(port, ConductorResistance.withTie(Quantity.ohms(arm, 0.001), CRITERIA));
    }
    return readings;
  }

  private static double ohms(SplittableRandom random) {
    return Math.exp(random.nextDouble(Math.log(0.03), Math.log(5)));
  }

  /**
   * On a healthy cable fewer than one in a thousand has a conductor called faulty. At 4.5 normal
   * deviations 16 conductors would give 5e-5; few conductors have a median that strays itself.
   */
  @Test
  void falseAlarmsAreRare() {
    SplittableRandom random = new SplittableRandom(SEED);
    System.out.println("conductors  cables  false alarms");
    for (int conductors : new int[] {3, 4, 5, 8, 16}) {
      int alarms = 0;
      for (int cable = 0; cable < CABLES; cable++) {
        Map<Integer, Quantity> readings = draw(random, conductors, ohms(random), 0);
        if (!new JointTest(readings, CRITERIA).standingOut().isEmpty()) {
          alarms++;
        }
      }
      System.out.printf("%10d %7d %13d%n", conductors, CABLES, alarms);
      assertThat(alarms)
          .as("seed=%d conductors=%d", SEED, conductors)
          .isLessThanOrEqualTo(CABLES / 1000);
    }
  }

  /** 0.15 ohm in a cable of up to 2 ohm a conductor, where 4.5 deviations are less. */
  @Test
  void jointsOf150MilliohmAreFound() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    System.out.println("ohm a conductor  joint of 0.15 ohm found");
    for (double ohms : new double[] {0.1, 0.5, 1, 2, 4}) {
      int found = 0;
      int wrong = 0;
      for (int cable = 0; cable < CABLES; cable++) {
        var out = new JointTest(draw(random, 6, ohms, 0.15), CRITERIA).standingOut();
        found += out.containsKey(0) ? 1 : 0;
        wrong += out.keySet().stream().anyMatch(p -> p != 0) ? 1 : 0;
      }
      System.out.printf("%15.1f  %.4f%n", ohms, (double) found / CABLES);
      assertThat(wrong).as("seed=%d ohms=%s", SEED + 1, ohms).isLessThanOrEqualTo(CABLES / 1000);
      if (ohms <= 2) {
        assertThat(found).as("seed=%d ohms=%s", SEED + 1, ohms).isGreaterThan(CABLES * 99 / 100);
      }
    }
  }

  /** Half of the conductors jointed must not hide in each other's spread. */
  @Test
  void jointsDoNotHideEachOther() {
    SplittableRandom random = new SplittableRandom(SEED + 2);
    for (int draw = 0; draw < 200; draw++) {
      Map<Integer, Quantity> readings = draw(random, 7, 0.5, 0.4);
      for (int port : new int[] {1, 2}) {
        Quantity healthy = readings.get(port);
        assertThat(healthy).isNotNull();
        readings.put(port, Quantity.ohms(healthy.value() + 0.4, healthy.u()));
      }
      assertThat(new JointTest(readings, CRITERIA).standingOut()).containsOnlyKeys(0, 1, 2);
    }
  }

  /** The median's uncertainty covers its error as a normal one would, from three conductors on. */
  @Test
  void medianIsAsUncertainAsItSays() {
    SplittableRandom random = new SplittableRandom(SEED + 3);
    for (int conductors : new int[] {1, 2, 3, 6, 16}) {
      double squares = 0;
      double claimed = 0;
      for (int cable = 0; cable < CABLES; cable++) {
        Quantity median = new JointTest(draw(random, conductors, 0.7, 0), CRITERIA).median();
        squares += (median.value() - 0.7) * (median.value() - 0.7);
        claimed += median.u() * median.u();
      }
      // √(π/2) is the limit for many: for three it claims 8 % too much.
      assertThat(Math.sqrt(squares / claimed))
          .as("seed=%d conductors=%d", SEED + 3, conductors)
          .isCloseTo(0.98, within(0.08));
    }
  }

  private static Map<Integer, Quantity> ohms(double... values) {
    Map<Integer, Quantity> readings = new LinkedHashMap<>();
    for (int port = 0; port < values.length; port++) {
      readings.put(port, Quantity.ohms(values[port], 0.0075));
    }
    return readings;
  }

  /** A joint never takes resistance away, so of few conductors the lowest has none. */
  @Test
  void jointsInMostOfFewConductorsAreFound() {
    for (double[] values :
        new double[][] {
          {20.42, 0.42}, {5.42, 20.42, 0.42}, {20.41, 20.42, 0.42}, {0.7, 0.7, 0.42, 0.42}
        }) {
      Map<Integer, Quantity> out = new JointTest(ohms(values), CRITERIA).standingOut();
      for (int port = 0; port < values.length; port++) {
        double excess = values[port] - 0.42;
        assertThat(out.containsKey(port)).as("port=%d of %s", port, out).isEqualTo(excess > 0);
        if (excess > 0) {
          assertThat(out.get(port).value()).isCloseTo(excess, within(1e-9));
        }
      }
    }
  }

  /** A broken conductor bridged onto a whole one behind the break makes that one lower. */
  @Test
  void aSecondWayBesideOneConductorBlamesNoOther() {
    assertThat(new JointTest(ohms(4.08, 5.08, 5.12, 5.1, 5.09), CRITERIA).standingOut()).isEmpty();
    assertThat(new JointTest(ohms(2.6, 5.08, 5.12), CRITERIA).standingOut()).isEmpty();
  }

  @Test
  void aFaultyConductorDoesNotMakeTheCommonValueUncertain() {
    Map<Integer, Quantity> readings = ohms(5.08, 5.12, 5.1, 5.09);
    Quantity without = new JointTest(readings, CRITERIA).median();
    readings.put(4, Quantity.ohms(266_000, 1200));
    Quantity with = new JointTest(readings, CRITERIA).median();
    assertThat(with.value()).isCloseTo(without.value(), within(0.02));
    assertThat(with.u()).isCloseTo(without.u(), within(0.001));
  }

  @Test
  void oneLowReadingBlamesNotAllTheOthers() {
    Map<Integer, Quantity> readings = ohms(0.667, 0.672, 0.677, 0.68);
    readings.put(4, Quantity.ohms(0.119, 0.025));
    assertThat(new JointTest(readings, CRITERIA).standingOut()).isEmpty();
  }

  /** What a bridge leaves unread is no measure for the others. */
  @Test
  void anUnknownResistanceBlamesNoOther() {
    Map<Integer, Quantity> readings = ohms(0.667, 0.672, 0.677, 0.68);
    readings.put(4, Quantity.ohms(0.119, 1000));
    assertThat(new JointTest(readings, CRITERIA).standingOut()).isEmpty();
  }

  @Test
  void oneConductorHasNoFellow() {
    JointTest one = new JointTest(ohms(0.5), CRITERIA);
    assertThat(one.standingOut()).isEmpty();
    assertThat(one.compared()).isFalse();
    assertThat(new JointTest(Map.of(), CRITERIA).median().value()).isNaN();
  }
}
