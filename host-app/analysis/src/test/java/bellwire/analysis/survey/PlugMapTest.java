package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * Places by likelihood on the coded plug, readings made up here. The nominal arms lie 41 to 53 ohm
 * apart; half the least step is 20 ohm.
 */
class PlugMapTest {
  private static final double[] ARMS = {
    49.9, 90.9, 133, 174, 215, 255, 301, 348, 392, 432, 475, 523, 576, 619, 665, 715
  };
  private static final Plug PLUG = new Plug(ARMS, 1e-4, 5e-6, 15);
  private static final Criteria CRITERIA = Criteria.standard();
  private static final double CONTACTS = 2 * CRITERIA.contactOhms();
  private static final double CONDUCTOR = 0.62;
  private static final PlugMap MAP = new PlugMap(PLUG, CRITERIA);
  private static final int[] FAR = {3, 1, 5, 4, 2, 8};

  /** Six conductors alike, port 0 on position 3 with more or less than its fellows. */
  private static Map<Integer, Quantity> coded(double extraOhms) {
    Map<Integer, Quantity> arms = new LinkedHashMap<>();
    for (int port = 0; port < FAR.length; port++) {
      double ohms = ARMS[FAR[port] - 1] + CONDUCTOR + CONTACTS + (port == 0 ? extraOhms : 0);
      arms.put(port, Quantity.ohms(ohms, 0.004));
    }
    return arms;
  }

  private static Map<Integer, Quantity> tie(double extraOhms) {
    Map<Integer, Quantity> alone = new LinkedHashMap<>();
    for (int port = 0; port < FAR.length; port++) {
      alone.put(port, Quantity.ohms(CONDUCTOR + (port == 0 ? extraOhms : 0), 0.008));
    }
    return alone;
  }

  private static Place of(Map<Integer, Place> places, int port) {
    Place place = places.get(port);
    assertThat(place).isNotNull();
    return place;
  }

  private static boolean decided(Place place) {
    return place.odds() >= CRITERIA.identityOdds();
  }

  @Test
  void healthyConductorsAreDecided() {
    Map<Integer, Place> places = MAP.places(coded(0), Map.of(), false);
    for (int port = 0; port < FAR.length; port++) {
      assertThat(of(places, port).position()).isEqualTo(FAR[port]);
      assertThat(decided(of(places, port))).isTrue();
    }
  }

  /** A joint well below half a step is decided, in its right place. */
  @Test
  void jointBelowHalfAStepIsDecidedByTheCodedPlugAlone() {
    for (double joint : new double[] {0.2, 1, 3, 9, 19}) {
      Place place = of(MAP.places(jointBelowFreePositions(joint), Map.of(), false), 2);
      assertThat(place.position()).as("joint=" + joint).isEqualTo(5);
      assertThat(decided(place)).as("joint=" + joint + " odds=" + place.odds()).isTrue();
    }
  }

  /** As {@link #coded}, the joint on port 2, position 5, above which 6 and 7 are free. */
  private static Map<Integer, Quantity> jointBelowFreePositions(double jointOhms) {
    Map<Integer, Quantity> arms = coded(0);
    arms.put(2, Quantity.ohms(ARMS[4] + CONDUCTOR + CONTACTS + jointOhms, 0.004));
    return arms;
  }

  /**
   * A joint that makes arm 6 out of arm 5, and a little: a healthy conductor on 6 would leave less,
   * a jointed one on 6 is likelier than one with a joint of a whole step, but not by enough. The
   * tie plug's reading of the conductor settles it, whatever the joint.
   */
  @Test
  void jointThatMimicsTheNextArmIsLeftUndecidedUntilTheTiePlugSettlesIt() {
    double step = ARMS[5] - ARMS[4];
    for (double off : new double[] {-0.3, -0.05, 0, 0.05, 0.2, 0.5, 2}) {
      Map<Integer, Quantity> arms = jointBelowFreePositions(step + off);
      if (off >= 0.2) {
        Place alone = of(MAP.places(arms, Map.of(), false), 2);
        assertThat(decided(alone)).as("off=" + off + " " + alone).isFalse();
      }
      Map<Integer, Quantity> known = tie(0);
      known.put(2, Quantity.ohms(CONDUCTOR + step + off, 0.008));
      Place settled = of(MAP.places(arms, known, false), 2);
      assertThat(settled.position()).as("off=" + off).isEqualTo(5);
      assertThat(decided(settled)).as("off=" + off + " " + settled).isTrue();
    }
  }

  /**
   * A joint of a whole step to a few hundredths of an ohm reads as a healthy conductor one position
   * up: no coded plug can tell. What share of all conductors that is, by the prior that the odds
   * rest on (one in a thousand has a joint spread over four decades), must be below one in the odds
   * asked for.
   */
  @Test
  void shareOfJointsDecidedWronglyIsWithinTheOdds() {
    double grain = Double.parseDouble(System.getProperty("bellwire.grain", "0.01"));
    double wrongShare = 0;
    StringBuilder wrong = new StringBuilder();
    StringBuilder undecided = new StringBuilder();
    for (int k = 1; k * grain < 90; k++) {
      double joint = k * grain;
      Place place = of(MAP.places(jointBelowFreePositions(joint), Map.of(), false), 2);
      if (!decided(place)) {
        undecided.append(k % 500 == 0 ? " " + joint : "");
      } else if (place.position() != 5) {
        wrongShare += 1e-3 * grain / (joint * Math.log(1e4));
        wrong.append(String.format(Locale.ROOT, " %.2f", joint));
      }
    }
    System.out.println("coded plug alone, joint below a free position, wrong at ohm:" + wrong);
    System.out.println("undecided at ohm:" + undecided);
    assertThat(wrongShare).isLessThan(1 / CRITERIA.identityOdds());
  }

  /** What reads less than a resistor does not hang on it. */
  @Test
  void negativeLeftoverIsImpossible() {
    Map<Integer, Quantity> arms = coded(0);
    arms.put(0, Quantity.ohms(ARMS[2] - 1, 0.004));
    assertThat(of(MAP.places(arms, Map.of(), false), 0).position()).isNotEqualTo(3);
    assertThat(MAP.pairsFor(Quantity.ohms(ARMS[0] + ARMS[1] - 1, 0.01), 8)).isEmpty();
  }

  /** The more a joint takes a reading away from its place, the less the place is certain. */
  @Test
  void oddsFallAsTheJointGrows() {
    double before = Double.POSITIVE_INFINITY;
    for (double joint = 0.2; joint <= 20; joint += 0.2) {
      double odds = of(MAP.places(jointBelowFreePositions(joint), Map.of(), false), 2).odds();
      assertThat(odds).as("joint=" + joint).isLessThanOrEqualTo(before);
      before = odds;
    }
  }

  /** The order of the ports does not matter. */
  @Test
  void everyPermutationOfAFullPlugIsFound() {
    Random random = new Random(16);
    List<Integer> far = new ArrayList<>(Arrays.stream(ARMS).boxed().map(a -> 0).toList());
    for (int i = 0; i < far.size(); i++) {
      far.set(i, i);
    }
    for (int draw = 0; draw < 50; draw++) {
      Collections.shuffle(far, random);
      Map<Integer, Quantity> arms = new LinkedHashMap<>();
      for (int port = 0; port < far.size(); port++) {
        double arm = ARMS[far.get(port)];
        double conductor = CONDUCTOR * (1 + 0.005 * random.nextGaussian());
        double contacts = 0.004 + 0.036 * random.nextDouble();
        double tolerance = arm * 1e-4 * (2 * random.nextDouble() - 1);
        arms.put(port, Quantity.ohms(arm + tolerance + conductor + contacts, 0.004));
      }
      Map<Integer, Place> places = MAP.places(arms, Map.of(), false);
      for (int port = 0; port < far.size(); port++) {
        assertThat(of(places, port).position()).isEqualTo(far.get(port) + 1);
        assertThat(decided(of(places, port))).as("draw=%d port=%d", draw, port).isTrue();
      }
    }
  }

  /** Two conductors give a sum only: all pairs of positions that could make it. */
  @Test
  void pairsForASum() {
    for (int p = 0; p < 16; p++) {
      for (int q = p + 1; q < 16; q++) {
        double sum = ARMS[p] + ARMS[q] + 2 * (CONDUCTOR + CONTACTS);
        List<String> pairs =
            MAP.pairsFor(Quantity.ohms(sum, 0.01), 8).stream()
                .map(pair -> pair[0] + "-" + pair[1])
                .collect(Collectors.toList());
        assertThat(pairs).contains((p + 1) + "-" + (q + 1));
        for (String pair : pairs) {
          String[] ends = pair.split("-", -1);
          double left =
              sum - ARMS[Integer.parseInt(ends[0]) - 1] - ARMS[Integer.parseInt(ends[1]) - 1];
          assertThat(left).as(pair).isBetween(-1.0, 16.0);
        }
      }
    }
    assertThat(MAP.pairsFor(Quantity.ohms(20, 0.01), 8)).isEmpty();
    assertThat(MAP.pairsFor(Quantity.ohms(2000, 0.01), 8)).isEmpty();
  }

  @Test
  void nothingToPlace() {
    assertThat(MAP.places(Map.of(), Map.of(), false)).isEmpty();
  }
}
