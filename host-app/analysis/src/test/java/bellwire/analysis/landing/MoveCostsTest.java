package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.landing.MoveCosts.Use;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Moves of theory (92), counted by hand, and against every way to deal conductors out. */
class MoveCostsTest {
  /** Both sides have the terminals R, C, W, Y and G. */
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();

  private static final List<String> LETTERS = List.of("R", "C", "W", "Y", "G");

  /**
   * @param landing conductor:near:far[:ohms], '-' for a free end; its colour is its name
   */
  private static MoveCosts costs(String landing) {
    List<Landed> landed = landed(landing);
    List<Cable.Conductor> conductors = new ArrayList<>();
    for (String words : landing.split(" ")) {
      String[] part = words.split(":");
      double ohms = part.length > 3 ? Double.parseDouble(part[3]) : 0.5;
      conductors.add(new Cable.Conductor(part[0], part[0], part[0], ohms, 0));
    }
    Cable cable = new Cable("drawn up", conductors, List.of());
    return new MoveCosts(FURNACE.equipment(), FURNACE.control(), cable, landed);
  }

  private static List<Landed> landed(String landing) {
    List<Landed> landed = new ArrayList<>();
    for (String words : landing.split(" ")) {
      String[] part = words.split(":");
      landed.add(new Landed(part[0], terminal(part[1]), terminal(part[2])));
    }
    return landed;
  }

  private static @Nullable String terminal(String words) {
    return words.equals("-") ? null : words;
  }

  /** Such as 'R:R C:C'. */
  private static List<Connection> connections(String words) {
    List<Connection> all = new ArrayList<>();
    for (String pair : words.split(" ")) {
      String[] ends = pair.split(":");
      all.add(new Connection(LETTERS.indexOf(ends[0]), LETTERS.indexOf(ends[1])));
    }
    return all;
  }

  private static String words(@Nullable List<Landed> landed) {
    return String.join(
        " ",
        Objects.requireNonNull(landed).stream()
            .map(
                l ->
                    l.conductor()
                        + ":"
                        + Objects.requireNonNullElse(l.near(), "-")
                        + ":"
                        + Objects.requireNonNullElse(l.far(), "-"))
            .toList());
  }

  @ParameterizedTest
  @CsvSource({
    "a:R:R, a:R:R, 0",
    "a:R:R, a:R:C, 1",
    "a:R:R, a:C:R, 1",
    "a:R:R, a:C:W, 2",
    "a:R:R, a:-:R, 1",
    "a:R:R, a:R:-, 1",
    "a:R:R, a:-:-, 2",
    "a:-:-, a:-:-, 0",
    "a:-:-, a:R:-, 1",
    "a:-:R, a:-:R, 0",
    "a:-:R, a:C:R, 1",
    "a:-:-, a:R:R, 2",
    // The new control has no W1, and W stands for it; it has a W, so W2 is no other name for it
    "a:W:W1, a:W:W, 0",
    "a:W:W2, a:W:W, 1"
  })
  void anEndThatChangesItsTerminalIsAMove(String was, String now, int moves) {
    MoveCosts costs = costs(was);
    assertThat(costs.movesOf(landed(was).get(0), landed(now).get(0))).isEqualTo(moves);
    assertThat(costs.moves(landed(now))).isEqualTo(moves);
  }

  @Test
  void movesOfAllConductorsAreSummed() {
    assertThat(costs("a:R:R b:C:C c:-:-").moves(landed("a:C:R b:R:W c:-:-"))).isEqualTo(3);
    assertThat(costs("a:R:R b:C:C c:-:-").conductors()).isEqualTo(3);
  }

  @Test
  void whatIsLandedAtBothEndsIsKeptOnce() {
    assertThat(costs("a:R:R b:R:R c:C:- d:-:W e:-:- f:Y:G").kept())
        .containsExactlyElementsOf(connections("R:R Y:G"));
  }

  @Test
  void aSchemeThatExistsCostsNothing() {
    MoveCosts costs = costs("red:R:R blue:C:C white:W:W");
    assertThat(words(costs.cheapest(connections("W:W R:R C:C"), Set.of())))
        .isEqualTo("red:R:R blue:C:C white:W:W");
    assertThat(costs.bound(connections("W:W R:R C:C"))).isZero();
  }

  /** A conductor out of use stays under its terminal at the equipment: one move, not two. */
  @Test
  void whatIsNotNeededIsLiftedAtTheControlOnly() {
    MoveCosts costs = costs("red:R:R blue:C:C brown:Y:Y");
    assertThat(words(costs.cheapest(connections("R:R C:C"), Set.of())))
        .isEqualTo("red:R:R blue:C:C brown:Y:-");
    assertThat(costs.bound(connections("R:R C:C"))).isEqualTo(1);
  }

  /** Free at the equipment, and the new control has its letter: it may stay there. */
  @Test
  void whatIsFreeAtTheEquipmentStaysUnderItsLetterAtTheControl() {
    MoveCosts costs = costs("red:R:R brown:-:Y white:-:W1 grey:-:X");
    assertThat(words(costs.cheapest(connections("R:R"), Set.of())))
        .isEqualTo("red:R:R brown:-:Y white:-:W grey:-:-");
    // X is no terminal of the new control: that end is lifted
    assertThat(costs.bound(connections("R:R"))).isEqualTo(1);
  }

  /** Two under one pair of clamps stay together where that saves a move. */
  @Test
  void aSecondConductorStaysBesideTheFirst() {
    MoveCosts costs = costs("red:R:R black:R:R blue:C:C");
    assertThat(words(costs.cheapest(connections("R:R C:C"), Set.of())))
        .isEqualTo("red:R:R black:R:R blue:C:C");
  }

  @Test
  void colourDecidesAmongSparesResistanceAmongEqualColours() {
    assertThat(
            words(
                costs("red:R:R brown:-:-:0.2 blue:-:-:0.9")
                    .cheapest(connections("R:R C:C"), Set.of())))
        .isEqualTo("red:R:R brown:-:- blue:C:C");
    assertThat(
            words(
                costs("red:R:R black:-:-:0.9 blue:-:-:0.2")
                    .cheapest(connections("R:R C:C"), Set.of())))
        .isEqualTo("red:R:R black:-:- blue:C:C");
    assertThat(
            words(
                costs("red:R:R black:-:-:0.2 blue:-:-:0.9")
                    .cheapest(connections("R:R C:C"), Set.of())))
        .isEqualTo("red:R:R black:C:C blue:-:-");
  }

  @Test
  void aMoveLessIsWorthMoreThanEveryColour() {
    assertThat(words(costs("pink:C:- blue:-:-").cheapest(connections("C:C"), Set.of())))
        .isEqualTo("pink:C:C blue:-:-");
  }

  /** Both would have to be moved at both ends: the one that is idle is taken, though it is thin. */
  @Test
  void whatIsIdleAsFoundIsTakenBeforeWhatIsFreeAtOneEnd() {
    MoveCosts costs = costs("grey:-:-:0.9 pink:-:W:0.2 red:R:R");
    assertThat(words(costs.cheapest(connections("R:R C:C"), Set.of())))
        .startsWith("grey:C:C pink:-:W");
  }

  /** It may stay where it is beside the one that is taken. */
  @Test
  void aBarredConductorIsNotTaken() {
    MoveCosts costs = costs("red:R:R blue:C:C brown:-:-");
    List<Connection> both = connections("R:R C:C");
    assertThat(words(costs.cheapest(both, Set.of(new Use(1, both.get(1))))))
        .isEqualTo("red:R:R blue:C:C brown:C:C");
    assertThat(words(costs.cheapest(both, Set.of(new Use(1, both.get(0))))))
        .isEqualTo("red:R:R blue:C:C brown:-:-");
    Set<Use> every =
        Set.of(new Use(0, both.get(1)), new Use(1, both.get(1)), new Use(2, both.get(1)));
    assertThat(costs.cheapest(both, every)).isNull();
  }

  @Test
  void tooFewConductorsMakeNoScheme() {
    MoveCosts costs = costs("red:R:R blue:C:C");
    assertThat(costs.cheapest(connections("R:R C:C W:W"), Set.of())).isNull();
    assertThat(costs.cheapest(connections("R:R C:C"), Set.of())).isNotNull();
  }

  /** The same conductor serves both best: the bound is one too low, and no more. */
  @Test
  void theBoundLetsOneConductorServeTwoConnections() {
    MoveCosts costs = costs("red:R:R blue:-:-");
    assertThat(costs.bound(connections("R:R R:C"))).isEqualTo(1);
    assertThat(costs.moves(costs.cheapest(connections("R:R R:C"), Set.of()))).isEqualTo(2);
  }

  @Test
  void dearnessIsMovesThenColoursThenWhatIsIdleThenResistance() {
    MoveCosts costs = costs("red:R:R:0.5 blue:-:-:0.4 black:-:-:0.3 brown:-:-:0.2");
    double blue = costs.dearness(landed("red:R:R blue:C:C black:-:- brown:-:-"));
    double black = costs.dearness(landed("red:R:R blue:-:- black:C:C brown:-:-"));
    double brown = costs.dearness(landed("red:R:R blue:-:- black:-:- brown:C:C"));
    double half = costs.dearness(landed("red:R:R blue:C:- black:-:- brown:-:-"));
    double none = costs.dearness(landed("red:R:R blue:-:- black:-:- brown:-:-"));
    assertThat(none).isLessThan(half);
    assertThat(half).isLessThan(black);
    // Black has the lesser resistance, by one place of four in 8
    assertThat(blue - black).isCloseTo(2, within(1e-9));
    // Brown has the least, and is wrong at both ends
    assertThat(brown - black).isCloseTo(2 * 16 - 2, within(1e-9));
    // Only what joins both ends has a preference
    assertThat(half - none).isCloseTo(256, within(1e-9));
    assertThat(black - none).isCloseTo(2 * 256 + 2, within(1e-9));
  }

  /** Against every dealing out of up to four conductors. */
  @Test
  void noOtherDealNeedsFewerMoves() {
    Random random = new Random(11);
    List<String> colours = List.of("red", "blue", "white", "yellow");
    List<String> ends = List.of("R", "C", "W", "Y", "-");
    int tight = 0;
    for (int draw = 0; draw < 300; draw++) {
      StringBuilder landing = new StringBuilder();
      int conductors = 2 + random.nextInt(3);
      for (int c = 0; c < conductors; c++) {
        landing.append(c == 0 ? "" : " ").append(colours.get(c));
        landing.append(":").append(ends.get(random.nextInt(5)));
        landing.append(":").append(ends.get(random.nextInt(5)));
      }
      List<Connection> wanted = new ArrayList<>();
      for (int k = 1 + random.nextInt(conductors); k > 0; k--) {
        wanted.add(new Connection(random.nextInt(4), random.nextInt(4)));
      }
      MoveCosts costs = costs(landing.toString());
      List<Landed> was = landed(landing.toString());
      List<Landed> cheapest = Objects.requireNonNull(costs.cheapest(wanted, Set.of()));
      int least = least(was, wanted, 0, new boolean[conductors]);
      assertThat(costs.moves(cheapest)).as("%s for %s", landing, wanted).isEqualTo(least);
      int bound = costs.bound(wanted);
      assertThat(bound).as("%s for %s", landing, wanted).isLessThanOrEqualTo(least);
      tight += bound == least ? 1 : 0;
    }
    // Only where one conductor serves two connections best is it lower
    assertThat(tight).isGreaterThan(200);
  }

  private static int least(List<Landed> was, List<Connection> wanted, int next, boolean[] used) {
    int least = next < wanted.size() ? Integer.MAX_VALUE : 0;
    for (int c = 0; c < used.length; c++) {
      if (next == wanted.size()) {
        least += used[c] ? 0 : idle(was.get(c), wanted);
      } else if (!used[c]) {
        used[c] = true;
        int moves = moves(was.get(c), wanted.get(next));
        least = Math.min(least, moves + least(was, wanted, next + 1, used));
        used[c] = false;
      }
    }
    return least;
  }

  /** Out of use, or beside a connection. */
  private static int idle(Landed was, List<Connection> wanted) {
    int least = was.near() != null && was.far() != null ? 1 : 0;
    for (Connection k : wanted) {
      least = Math.min(least, moves(was, k));
    }
    return least;
  }

  private static int moves(Landed was, Connection to) {
    return (LETTERS.get(to.near()).equals(was.near()) ? 0 : 1)
        + (LETTERS.get(to.far()).equals(was.far()) ? 0 : 1);
  }
}
