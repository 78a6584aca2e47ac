package bellwire.analysis.ties;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.ties.TieReading.Explanation;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Decoding against a search through all assignments, and against colour refinement. */
class TieDecoderTest {
  private static final long SEED = 20261;

  /** Up to here all orders are gone through. */
  private static final int ALL_ORDERS = 7;

  private static final int ORDERS = 40;

  static List<Integer> range(int n) {
    return IntStream.rangeClosed(1, n).boxed().toList();
  }

  static int[] identity(int n) {
    return IntStream.rangeClosed(0, n).toArray();
  }

  private static int[] randomOrder(int n, Random random) {
    List<Integer> order = new ArrayList<>(range(n));
    Collections.shuffle(order, random);
    int[] port = new int[n + 1];
    IntStream.rangeClosed(1, n).forEach(f -> port[f] = order.get(f - 1));
    return port;
  }

  static void eachOrder(int n, Consumer<int[]> use) {
    permute(new int[n + 1], 1, n, new boolean[n + 1], use);
  }

  private static void permute(int[] port, int f, int n, boolean[] used, Consumer<int[]> use) {
    if (f > n) {
      use.accept(port);
      return;
    }
    for (int p = 1; p <= n; p++) {
      if (!used[p]) {
        used[p] = true;
        port[f] = p;
        permute(port, f + 1, n, used, use);
        used[p] = false;
      }
    }
  }

  private static void assertAllFound(TiePlan plan, int[] port) {
    int n = plan.conductors();
    WallAndCellar cable = new WallAndCellar(n, WallAndCellar.ties(plan), List.of(), List.of());
    TieReading reading = new TieDecoder(plan).decode(cable.seenFrom(port));
    assertThat(reading.explanation()).isEqualTo(Explanation.AS_PLANNED);
    for (int f = 1; f <= n; f++) {
      assertThat(reading.number(port[f])).as("n=%d port=%s", n, Arrays.toString(port)).isEqualTo(f);
    }
  }

  @Test
  void everyOrderOfFewConductorsIsFound() {
    for (int n = 3; n <= ALL_ORDERS; n++) {
      TiePlan plan = TiePlans.fewest(n);
      eachOrder(n, port -> assertAllFound(plan, port));
    }
  }

  @Test
  void manyOrdersOfManyConductorsAreFound() {
    Random random = new Random(SEED);
    System.out.println("seed=" + SEED);
    for (int n = ALL_ORDERS + 1; n <= TiePlan.MOST_CONDUCTORS; n++) {
      for (int k = 0; k < (n <= 16 ? ORDERS : 3); k++) {
        assertAllFound(TiePlans.fewest(n), randomOrder(n, random));
        int[] port = randomOrder(n, random);
        TiePlans.everyTied(n).ifPresent(plan -> assertAllFound(plan, port));
      }
    }
  }

  /** One cable as it may be wrong: opens, and the far numbers that are shorted. */
  private record Fault(List<Integer> opens, List<Set<Integer>> shorts) {}

  private static List<Fault> opens(int n) {
    return range(n).stream().map(f -> new Fault(List.of(f), List.of())).toList();
  }

  /** Metal is far number 0. */
  private static List<Fault> shorts(int n, int from) {
    List<Fault> faults = new ArrayList<>();
    for (int a = from; a <= n; a++) {
      for (int b = a + 1; b <= n; b++) {
        faults.add(new Fault(List.of(), List.of(Set.of(a, b))));
      }
    }
    return faults;
  }

  private static WallAndCellar cable(TiePlan plan, Fault fault) {
    return new WallAndCellar(
        plan.conductors(), WallAndCellar.ties(plan), fault.opens(), fault.shorts());
  }

  /**
   * What every explanation with the least number of opens allows, by going through all assignments
   * of ports to far numbers.
   */
  private static Map<Integer, Set<Integer>> bruteForce(
      TiePlan plan, WallAndCellar seen, boolean shorted, boolean metal) {
    int n = plan.conductors();
    List<Fault> whole =
        shorted
            ? metal
                ? shorts(n, 0).stream().filter(f -> f.shorts().get(0).contains(0)).toList()
                : shorts(n, 1)
            : List.of(new Fault(List.of(), List.of()));
    for (int opens = 0; opens <= 1; opens++) {
      Map<Integer, Set<Integer>> possible = new HashMap<>();
      for (Fault base : whole) {
        for (int open : opens == 0 ? List.of(-1) : range(n)) {
          if (opens == 1 && plan.untied().contains(open)) {
            continue;
          }
          Fault fault = new Fault(opens == 0 ? List.of() : List.of(open), base.shorts());
          lay(cable(plan, fault), seen, possible);
        }
      }
      if (!possible.isEmpty()) {
        return possible;
      }
    }
    return Map.of();
  }

  /**
   * Adds every assignment that makes of {@code there} what is seen, ports being numbers as well.
   */
  static void lay(WallAndCellar there, WallAndCellar seen, Map<Integer, Set<Integer>> possible) {
    eachOrder(seen.conductors, port -> layOne(there, seen, port, possible));
  }

  private static void layOne(
      WallAndCellar there, WallAndCellar seen, int[] port, Map<Integer, Set<Integer>> possible) {
    for (int layer = 0; layer < there.layers.size(); layer++) {
      Set<Set<Integer>> groups = seen.layers.get(layer);
      if (there.layers.get(layer).size() != groups.size()) {
        return;
      }
      for (Set<Integer> group : there.layers.get(layer)) {
        Set<Integer> laid = new TreeSet<>();
        group.forEach(f -> laid.add(f == 0 ? 0 : port[f]));
        if (!groups.contains(laid)) {
          return;
        }
      }
    }
    range(seen.conductors)
        .forEach(f -> possible.computeIfAbsent(port[f], p -> new TreeSet<>()).add(f));
  }

  private static void assertAsBruteForce(TiePlan plan, Fault fault) {
    WallAndCellar cable = cable(plan, fault);
    boolean shorted = !fault.shorts().isEmpty();
    boolean metal = shorted && fault.shorts().get(0).contains(0);
    TieReading reading = new TieDecoder(plan).decode(cable.seenFrom(identity(plan.conductors())));
    assertThat(reading.possible())
        .as("n=%d %s %s", plan.conductors(), plan, fault)
        .isEqualTo(bruteForce(plan, cable, shorted, metal));
    if (fault.opens().isEmpty() || !shorted) {
      // Whatever one fault leaves open, the truth is among it. Two may look like one.
      range(plan.conductors()).forEach(f -> assertThat(reading.possible().get(f)).contains(f));
    }
  }

  @Test
  void withOneFaultItLeavesOpenWhatAllAssignmentsLeaveOpen() {
    for (int n = 3; n <= 6; n++) {
      TiePlan plan = TiePlans.fewest(n);
      assertAsBruteForce(plan, new Fault(List.of(), List.of()));
      opens(n).forEach(fault -> assertAsBruteForce(plan, fault));
      shorts(n, 0).forEach(fault -> assertAsBruteForce(plan, fault));
    }
    TiePlan seven = TiePlans.fewest(7);
    opens(7).forEach(fault -> assertAsBruteForce(seven, fault));
    List<Fault> some = shorts(7, 0);
    IntStream.range(0, 4).forEach(k -> assertAsBruteForce(seven, some.get(7 * k)));
    TiePlan twoChains = TiePlan.ofChains(List.of(5, 1));
    opens(6).forEach(fault -> assertAsBruteForce(twoChains, fault));
  }

  /** Which port's conductor is broken may be known otherwise, by its capacitance. */
  @Test
  void knowingTheBrokenOneLeavesOpenWhatAllAssignmentsWithItLeaveOpen() {
    for (int n = 3; n <= 6; n++) {
      TiePlan plan = TiePlans.fewest(n);
      for (int open = 1; open <= n; open++) {
        if (plan.untied().contains(open)) {
          continue;
        }
        WallAndCellar cable = cable(plan, new Fault(List.of(open), List.of()));
        Map<Integer, Set<Integer>> possible = new HashMap<>();
        for (int other : range(n)) {
          // Only assignments that give the broken port the number of a broken conductor.
          int number = other;
          Map<Integer, Set<Integer>> one = new HashMap<>();
          int known = open;
          eachOrder(
              n,
              port -> {
                if (port[number] == known) {
                  layOne(cable(plan, new Fault(List.of(number), List.of())), cable, port, one);
                }
              });
          one.forEach(
              (port, numbers) ->
                  possible.computeIfAbsent(port, p -> new TreeSet<>()).addAll(numbers));
        }
        Seen seen = cable.seenFrom(identity(n)).withBroken(List.of(open));
        assertThat(new TieDecoder(plan).decode(seen).possible())
            .as("n=%d open=%d", n, open)
            .isEqualTo(possible);
      }
    }
  }

  @Test
  void withAnOpenAndAShortItLeavesOpenWhatAllAssignmentsLeaveOpen() {
    TiePlan plan = TiePlans.fewest(5);
    for (Fault shorted : shorts(5, 0)) {
      for (int open = 1; open <= 5; open++) {
        assertAsBruteForce(plan, new Fault(List.of(open), shorted.shorts()));
      }
    }
  }

  @Test
  void aPlanThatDoesNotTellEveryoneApartIsDecodedAsFarAsItDoes() {
    // A chain of four can be turned round, two chains of three changed for one another.
    assertAsBruteForce(TiePlan.ofChains(List.of(4, 1)), new Fault(List.of(), List.of()));
    TiePlan twice = TiePlan.ofChains(List.of(3, 3));
    assertAsBruteForce(twice, new Fault(List.of(), List.of()));
    // A cycle turns.
    TiePlan cycle =
        new TiePlan(
            4,
            List.of(List.of(new Tie(1, 2), new Tie(3, 4)), List.of(new Tie(2, 3), new Tie(4, 1))));
    assertAsBruteForce(cycle, new Fault(List.of(), List.of()));
    TieReading reading =
        new TieDecoder(cycle)
            .decode(cable(cycle, new Fault(List.of(), List.of())).seenFrom(identity(4)));
    assertThat(reading.possible().values()).allMatch(numbers -> numbers.size() == 4);
  }

  /** For 7 to 16 conductors: every open and every short, against colour refinement. */
  @Test
  void withOneFaultItLeavesOpenExactlyTheOrbits() {
    Random random = new Random(SEED);
    for (int n = 7; n <= 16; n++) {
      TiePlan plan = TiePlans.fewest(n);
      assertOrbits(plan, opens(n), random);
      assertOrbits(plan, shorts(n, 1), random);
    }
  }

  private static void assertOrbits(TiePlan plan, List<Fault> faults, Random random) {
    int n = plan.conductors();
    Map<Fault, List<String>> forms = new HashMap<>();
    Map<List<String>, List<Fault>> same = new HashMap<>();
    for (Fault fault : faults) {
      List<String> form = cable(plan, fault).rootedForms();
      forms.put(fault, form);
      same.computeIfAbsent(form.stream().sorted().toList(), k -> new ArrayList<>()).add(fault);
    }
    for (Fault fault : faults) {
      int[] port = randomOrder(n, random);
      TieReading reading = new TieDecoder(plan).decode(cable(plan, fault).seenFrom(port));
      List<String> own = forms.get(fault);
      // An open conductor in no tie looks like no fault.
      boolean invisible = !fault.opens().isEmpty() && plan.untied().containsAll(fault.opens());
      List<Fault> alike = invisible ? List.of(fault) : same.get(own.stream().sorted().toList());
      for (int f = 1; f <= n; f++) {
        Set<Integer> orbit = new TreeSet<>();
        for (Fault other : alike) {
          for (int g = 1; g <= n; g++) {
            if (forms.get(other).get(g - 1).equals(own.get(f - 1))) {
              orbit.add(g);
            }
          }
        }
        assertThat(reading.possible().get(port[f])).as("n=%d %s", n, fault).isEqualTo(orbit);
      }
    }
  }

  @Test
  void aBrokenConductorIsNamedWhereItIsTheOnlyOneItCanBe() {
    TiePlan plan = TiePlans.fewest(5);
    TieReading end =
        new TieDecoder(plan)
            .decode(cable(plan, new Fault(List.of(1), List.of())).seenFrom(identity(5)));
    assertThat(end.explanation()).isEqualTo(Explanation.OPENS);
    assertThat(end.surelyBroken()).containsExactly(1);
    assertThat(end.broken()).containsExactly(1);
    TieReading middle =
        new TieDecoder(plan)
            .decode(cable(plan, new Fault(List.of(2), List.of())).seenFrom(identity(5)));
    // 1 lost its only partner: it looks as broken as 2 does.
    assertThat(middle.surelyBroken()).isEmpty();
    assertThat(middle.maybeBroken()).containsExactly(1, 2);
    // And the other half of the chain, with 4 broken, looks the same.
    assertThat(middle.broken()).containsExactly(2, 4);
  }

  @Test
  void aConductorWithoutCopperAtTheNearEndIsLeftOut() {
    TiePlan plan = TiePlans.fewest(5);
    Seen whole = cable(plan, new Fault(List.of(5), List.of())).seenFrom(identity(5));
    Seen without = new Seen(List.of(1, 2, 3, 4), 99, whole.shorted(), whole.rounds());
    TieReading reading = new TieDecoder(plan).decode(without);
    assertThat(reading.broken()).containsExactly(5);
    // What is left is a chain of four, which can be turned round.
    assertThat(reading.possible())
        .isEqualTo(Map.of(1, Set.of(1, 4), 2, Set.of(2, 3), 3, Set.of(2, 3), 4, Set.of(1, 4)));
  }

  @Test
  void aWrongPairIsNotExplained() {
    TiePlan plan = TiePlans.fewest(8);
    List<List<Set<Integer>>> ties = new ArrayList<>(WallAndCellar.ties(plan));
    List<Set<Integer>> second = new ArrayList<>(ties.get(1));
    assertThat(second.remove(Set.of(2, 3)) && second.add(Set.of(2, 5))).isTrue();
    ties.set(1, second);
    TieReading reading =
        new TieDecoder(plan)
            .decode(new WallAndCellar(8, ties, List.of(), List.of()).seenFrom(identity(8)));
    assertThat(reading.explanation()).isEqualTo(Explanation.UNEXPLAINED);
    assertThat(reading.possible().values()).allMatch(Set::isEmpty);
  }

  @Test
  void ofTwoTheOneThatBareMetalJoinsIsKnown() {
    TiePlan plan = TiePlans.twoByMetal();
    eachOrder(2, port -> assertAllFound(plan, port));
    for (int open = 1; open <= 2; open++) {
      assertAsBruteForce(plan, new Fault(List.of(open), List.of()));
    }
    TieReading reading =
        new TieDecoder(plan)
            .decode(cable(plan, new Fault(List.of(1), List.of())).seenFrom(identity(2)));
    assertThat(reading.number(2)).isEqualTo(2);
    assertThat(reading.number(1)).isEqualTo(1);
  }

  /** 64 conductors and three groups of shorts: too many places to go through, and said so. */
  @Test
  void whatCannotBeGoneThroughIsSaid() {
    TiePlan plan = TiePlans.fewest(64);
    Fault fault = new Fault(List.of(), List.of(Set.of(1, 9), Set.of(20, 30), Set.of(40, 55)));
    TieReading reading = new TieDecoder(plan).decode(cable(plan, fault).seenFrom(identity(64)));
    assertThat(reading.explanation()).isEqualTo(Explanation.TOO_MANY);
    assertThat(reading.possible().values()).allMatch(Set::isEmpty);
    assertThat(reading.broken()).isEmpty();
    assertThat(reading.maybeBroken()).isEmpty();
  }
}
