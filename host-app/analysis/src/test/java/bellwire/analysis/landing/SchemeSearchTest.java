package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Supply;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Transformer;
import bellwire.analysis.loop.Wire;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Schemes of small equipment without contacts, against (91) asked of every set of connections:
 * copper is followed point by point, and nothing is grown or cut off.
 */
class SchemeSearchTest {
  /** The most connections of one set: a minimal scheme of these needs four, and one to spare. */
  private static final int MOST = 5;

  private static SchemeSearch search(Replacement job, Scheme.Fittings fittings) {
    return search(job.equipment(), job.control(), fittings);
  }

  private static SchemeSearch search(
      Equipment equipment, Control control, Scheme.Fittings fittings) {
    return new SchemeSearch(equipment, control, new NearEffects(equipment), fittings, () -> true);
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6})
  void findsEveryMinimalSchemeOnceAndNoOther(int kind) {
    Replacement job = SmallReplacement.draw(7 + kind);
    int schemes = 0;
    for (Scheme.Fittings fittings : FittingChoices.of(job.control(), job.asFound())) {
      Set<Set<Connection>> expected = new HashSet<>();
      every(job, fittings, new ArrayList<>(), 0, expected);
      List<Set<Connection>> found = new ArrayList<>();
      search(job, fittings)
          .run(
              s -> {
                assertThat(s.fittings()).isEqualTo(fittings);
                found.add(Set.copyOf(s.connections()));
              });
      assertThat(found).as("%s", fittings).containsExactlyInAnyOrderElementsOf(expected);
      schemes += found.size();
    }
    assertThat(schemes).isPositive();
  }

  private static void every(
      Replacement job,
      Scheme.Fittings fittings,
      List<Connection> made,
      int next,
      Set<Set<Connection>> found) {
    int fars = job.control().terminals().size();
    if (!legal(job, fittings, made)) {
      return;
    }
    if (serves(job, fittings, made)) {
      if (made.stream().noneMatch(c -> serves(job, fittings, without(made, c)))) {
        found.add(Set.copyOf(made));
      }
      return;
    }
    for (int k = next; made.size() < MOST && k < job.equipment().terminals().size() * fars; k++) {
      made.add(new Connection(k / fars, k % fars));
      every(job, fittings, made, k + 1, found);
      made.remove(made.size() - 1);
    }
  }

  private static List<Connection> without(List<Connection> made, Connection one) {
    List<Connection> others = new ArrayList<>(made);
    others.remove(one);
    return others;
  }

  /** Drawn sets, harmful and idle ones too, asked one after another of the same search. */
  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 3, 4, 5, 6})
  void saysOfAnyConnectionsWhetherTheyHarmAndWhetherTheyServe(int kind) {
    Replacement job = SmallReplacement.draw(7 + kind);
    Random random = new Random(kind);
    int harmless = 0;
    int serving = 0;
    for (Scheme.Fittings fittings : FittingChoices.of(job.control(), job.asFound())) {
      SchemeSearch search = search(job, fittings);
      List<List<Connection>> asked = new ArrayList<>();
      search.run(s -> asked.add(s.connections()));
      serving += asked.size();
      for (int draw = 0; draw < 200; draw++) {
        asked.add(drawn(job, random, asked));
      }
      for (List<Connection> some : asked) {
        boolean legal = legal(job, fittings, some);
        harmless += legal ? 1 : 0;
        assertThat(search.harmless(some)).as("%s", some).isEqualTo(legal);
        assertThat(search.serves(some))
            .as("%s", some)
            .isEqualTo(legal && serves(job, fittings, some));
      }
      assertThat(search.cutOff()).isFalse();
    }
    assertThat(harmless).isGreaterThan(serving);
  }

  /** Up to three connections, or a scheme and one more. */
  private static List<Connection> drawn(
      Replacement job, Random random, List<List<Connection>> schemes) {
    List<Connection> some = new ArrayList<>();
    int more = random.nextInt(4);
    if (random.nextBoolean() && !schemes.isEmpty()) {
      some.addAll(schemes.get(random.nextInt(schemes.size())));
      more = 1;
    }
    for (; more > 0; more--) {
      some.add(
          new Connection(
              random.nextInt(job.equipment().terminals().size()),
              random.nextInt(job.control().terminals().size())));
    }
    return some;
  }

  private static boolean legal(Replacement job, Scheme.Fittings fittings, List<Connection> made) {
    for (Control.State state : job.control().states()) {
      Map<Point, Point> copper = copper(job, fittings, made, state);
      Wanted wanted = job.equipment().wantedOn(state.call());
      for (Transformer t : job.equipment().all(Transformer.class)) {
        if (end(copper, t.a()).equals(end(copper, t.b()))) {
          return false;
        }
      }
      for (Load load : job.equipment().all(Load.class)) {
        boolean mayRun = wanted.must().contains(load.name()) || wanted.may().contains(load.name());
        if (!mayRun && across(job, copper, load.a(), load.b())) {
          return false;
        }
      }
    }
    return true;
  }

  private static boolean serves(Replacement job, Scheme.Fittings fittings, List<Connection> made) {
    Supply supply = job.control().supply();
    for (Control.State state : job.control().states()) {
      Map<Point, Point> copper = copper(job, fittings, made, state);
      Set<String> must = job.equipment().wantedOn(state.call()).must();
      for (Load load : job.equipment().all(Load.class)) {
        if (must.contains(load.name()) && !across(job, copper, load.a(), load.b())) {
          return false;
        }
      }
      if (supply.hot() != null
          && supply.common() != null
          && !across(job, copper, Point.far(supply.hot()), Point.far(supply.common()))) {
        return false;
      }
    }
    return true;
  }

  /** Whether two points are at the two ends of one transformer. */
  private static boolean across(Replacement job, Map<Point, Point> copper, Point a, Point b) {
    Set<Point> ends = ends(copper, a, b);
    return ends.size() == 2
        && job.equipment().all(Transformer.class).stream()
            .anyMatch(t -> ends.equals(ends(copper, t.a(), t.b())));
  }

  private static Set<Point> ends(Map<Point, Point> copper, Point a, Point b) {
    return new HashSet<>(List.of(end(copper, a), end(copper, b)));
  }

  private static Map<Point, Point> copper(
      Replacement job, Scheme.Fittings fittings, List<Connection> made, Control.State state) {
    List<String> near = job.equipment().terminals();
    List<String> far = job.control().terminals();
    Map<Point, Point> copper = new HashMap<>();
    made.forEach(c -> join(copper, Point.near(near.get(c.near())), Point.far(far.get(c.far()))));
    for (Control.Jumper j : fittings.jumpers()) {
      boolean here = j.side() == Side.NEAR;
      join(
          copper,
          here ? Point.near(j.a()) : Point.far(j.a()),
          here ? Point.near(j.b()) : Point.far(j.b()));
    }
    for (Control.Closing closing : state.closes()) {
      for (ControlContact contact : job.control().contacts()) {
        if (closing.under(fittings.settings()) && contact.terminal().equals(closing.terminal())) {
          join(copper, Point.far(contact.supply()), Point.far(contact.terminal()));
        }
      }
    }
    return copper;
  }

  private static void join(Map<Point, Point> copper, Point a, Point b) {
    Point one = end(copper, a);
    Point other = end(copper, b);
    if (!one.equals(other)) {
      copper.put(one, other);
    }
  }

  private static Point end(Map<Point, Point> copper, Point of) {
    Point at = of;
    for (Point next = copper.get(at); next != null; next = copper.get(at)) {
      at = next;
    }
    return at;
  }

  /** At rest it closes nothing in one mode, and heat in the other. */
  @Test
  void statesThatWantTheSameAndCloseOtherwiseAreTwo() {
    Replacement job = SmallReplacement.draw(7);
    Control c = job.control();
    List<Control.State> states = new ArrayList<>(c.states());
    states.add(
        new Control.State(
            "held", Control.Mode.OFF, Call.NONE, List.of(new Control.Closing("W", Map.of()))));
    Control held =
        new Control(
            c.title(), c.terminals(), c.supply(), c.contacts(), c.jumpers(), c.settings(), states);
    Scheme.Fittings none = FittingChoices.of(c, job.asFound()).get(0);
    List<Scheme> found = new ArrayList<>();
    search(job.equipment(), held, none).run(found::add);
    assertThat(found).isEmpty();
    search(job.equipment(), c, none).run(found::add);
    assertThat(found).isNotEmpty();
  }

  /** As docs/theory.md says of (91). */
  @Test
  void twoStageDualFuelHasEightSchemesOfEightOrNineConnections() {
    Installation sample = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
    List<Integer> sizes = new ArrayList<>();
    List<Scheme.Fittings> ways = FittingChoices.of(sample.control(), sample.plan());
    assertThat(ways).hasSize(20);
    for (Scheme.Fittings fittings : ways) {
      search(sample.equipment(), sample.control(), fittings)
          .run(s -> sizes.add(s.connections().size()));
    }
    assertThat(sizes).hasSize(8).containsOnly(8, 9);
  }

  /** Three terminals for each of five letters: 3 to the 5th ways to connect. */
  @Test
  void isAskedNowAndThenWhetherToGoOn() {
    Installation sample = SampleLoops.FURNACE_COOLING.healthy();
    Equipment furnace = sample.equipment();
    List<String> terminals = new ArrayList<>(furnace.terminals());
    List<Element> elements = new ArrayList<>(furnace.elements());
    for (String end : furnace.terminals()) {
      for (int k = 2; k <= 3; k++) {
        terminals.add(end + k);
        elements.add(new Wire("wire " + end + k, Point.near(end), Point.near(end + k), 0.05));
      }
    }
    Equipment wide = new Equipment("drawn up", terminals, elements, furnace.wanted());
    Scheme.Fittings asFound = FittingChoices.of(sample.control(), sample.plan()).get(0);
    int[] asked = {0};
    int[] schemes = {0};
    NearEffects effects = new NearEffects(wide);
    new SchemeSearch(wide, sample.control(), effects, asFound, () -> ++asked[0] > 0)
        .run(s -> schemes[0]++);
    assertThat(schemes[0]).isEqualTo(243);
    assertThat(asked[0]).isBetween(1, 24);
    SchemeSearch stopped = new SchemeSearch(wide, sample.control(), effects, asFound, () -> false);
    assertThatThrownBy(() -> stopped.run(s -> {})).isInstanceOf(Planner.Stopped.class);
  }
}
