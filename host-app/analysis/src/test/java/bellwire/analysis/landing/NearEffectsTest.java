package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import bellwire.analysis.landing.NearEffects.Effect;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What runs by ideal copper with terminals joined, theory (90): followed by hand. */
class NearEffectsTest {
  private static final Equipment FURNACE = SampleLoops.FURNACE_COOLING.healthy().equipment();
  private static final Equipment TWO = SampleLoops.TWO_SUPPLIES.healthy().equipment();
  private static final Equipment PANEL = SampleLoops.ZONE_PANEL.healthy().equipment();

  /**
   * @param joined such as 'R-W C-G'
   */
  private static int[] group(Equipment of, String joined) {
    Groups groups = new Groups(of.terminals().size());
    for (String pair : joined.split(" ")) {
      if (!pair.isEmpty()) {
        String[] ends = pair.split("-");
        groups.join(of.terminals().indexOf(ends[0]), of.terminals().indexOf(ends[1]));
      }
    }
    int[] group = new int[of.terminals().size()];
    for (int t = 0; t < group.length; t++) {
      group[t] = groups.of(t);
    }
    return group;
  }

  private static Effect effect(Equipment of, String joined) {
    return new NearEffects(of).of(group(of, joined));
  }

  private static Set<String> names(Equipment of, long bits) {
    Set<String> names = new HashSet<>();
    List<Load> loads = of.all(Load.class);
    for (int k = 0; k < loads.size(); k++) {
      if ((bits & 1L << k) != 0) {
        names.add(loads.get(k).name());
      }
    }
    assertThat(bits >>> loads.size()).isZero();
    return names;
  }

  private static void assertRuns(Equipment of, String joined, String... loads) {
    Effect effect = effect(of, joined);
    assertThat(names(of, effect.sure())).as(joined).containsExactlyInAnyOrder(loads);
    assertThat(names(of, effect.possible())).as(joined).containsExactlyInAnyOrder(loads);
    assertThat(effect.shorted()).as(joined).isFalse();
  }

  @Test
  void aCallRunsWhatItsTerminalFeeds() {
    assertRuns(FURNACE, "");
    assertRuns(FURNACE, "R-W", "heat input", "gas valve");
    assertRuns(FURNACE, "R-G", "fan input");
    assertRuns(FURNACE, "R-Y Y-G", "compressor contactor", "fan input");
    // Two ends of loads joined, and no supply
    assertRuns(FURNACE, "W-Y Y-G");
    assertRuns(FURNACE, "C-W C-Y");
  }

  /** The panel's inputs switch loads of another supply. */
  @Test
  void aRelaysContactFeedsWhatIsBehindIt() {
    assertRuns(PANEL, "");
    assertRuns(PANEL, "R-W", "panel's heat input", "gas valve");
    assertRuns(
        PANEL,
        "R-Y R-G",
        "panel's cooling input",
        "compressor contactor",
        "panel's fan input",
        "fan relay");
  }

  @Test
  void aLoadOnTwoSuppliesDoesNotRun() {
    assertRuns(TWO, "RH-W", "gas valve");
    assertRuns(TWO, "RC-W");
    assertRuns(TWO, "RC-W C-CH", "gas valve");
    assertRuns(TWO, "RC-G RH-W", "fan relay", "gas valve");
  }

  @Test
  void hotAndCommonJoinedAreAShort() {
    assertThat(effect(FURNACE, "R-C").shorted()).isTrue();
    assertThat(effect(FURNACE, "R-W W-C").shorted()).isTrue();
    assertThat(effect(TWO, "RH-C").shorted()).isFalse();
    assertThat(effect(TWO, "RC-C").shorted()).isTrue();
    // A shorted supply runs nothing for certain
    assertThat(names(FURNACE, effect(FURNACE, "R-C R-W").sure())).isEmpty();
  }

  private static Load load(String name, Point a, Point b, Role role) {
    Complex z = new Complex(100);
    return new Load(name, a, b, Load.Kind.RELAY, z, z, 18, 8, 30, role, 1);
  }

  /** A relay on Y, which takes the strip off that runs at rest. */
  private static Equipment withNormallyClosed() {
    List<Element> elements = new ArrayList<>();
    elements.addAll(FURNACE.all(bellwire.analysis.loop.Transformer.class));
    elements.addAll(FURNACE.all(bellwire.analysis.loop.Fuse.class));
    elements.add(load("relay", Point.near("Y"), Point.near("C"), Role.NONE));
    elements.add(new Contact("rest", Point.near("R"), Point.inside("lead"), "relay", false));
    elements.add(load("strip", Point.near("C"), Point.inside("lead"), Role.HEAT));
    return new Equipment("drawn up", List.of("R", "C", "W", "Y"), elements, Map.of());
  }

  /** A contact that opens is in no case closed for certain, and may always be. */
  @Test
  void whatANormallyClosedContactFeedsMayRunAndNeverMust() {
    Equipment of = withNormallyClosed();
    assertThat(names(of, effect(of, "").sure())).isEmpty();
    assertThat(names(of, effect(of, "").possible())).containsExactly("strip");
    assertThat(names(of, effect(of, "R-Y").sure())).containsExactly("relay");
    assertThat(names(of, effect(of, "R-Y").possible())).containsExactlyInAnyOrder("relay", "strip");
  }

  @Test
  void acrossATransformerAreItsHotAndItsCommon() {
    Effect rest = effect(TWO, "W-RH");
    int rh = TWO.terminals().indexOf("RH");
    int ch = TWO.terminals().indexOf("CH");
    int rc = TWO.terminals().indexOf("RC");
    int c = TWO.terminals().indexOf("C");
    int w = TWO.terminals().indexOf("W");
    int y = TWO.terminals().indexOf("Y");
    assertThat(rest.across(rh, ch)).isTrue();
    assertThat(rest.across(ch, rh)).isTrue();
    assertThat(rest.across(rc, c)).isTrue();
    assertThat(rest.across(w, ch)).isTrue();
    assertThat(rest.across(rh, c)).isFalse();
    assertThat(rest.across(rc, ch)).isFalse();
    assertThat(rest.across(rh, w)).isFalse();
    assertThat(rest.across(ch, c)).isFalse();
    assertThat(rest.across(y, c)).isFalse();
    assertThat(rest.across(c, y)).isFalse();
    assertThat(rest.across(rc, y)).isFalse();
  }

  @Test
  void whatIsBehindATerminal() {
    NearEffects effects = new NearEffects(FURNACE);
    List<String> t = FURNACE.terminals();
    // R feeds the gas valve over the heat relay's contact
    assertThat(names(FURNACE, effects.behind(t.indexOf("R")))).containsExactly("gas valve");
    assertThat(names(FURNACE, effects.behind(t.indexOf("W")))).containsExactly("heat input");
    assertThat(names(FURNACE, effects.behind(t.indexOf("Y"))))
        .containsExactly("compressor contactor");
    assertThat(names(FURNACE, effects.behind(t.indexOf("C")))).hasSize(4);
    assertThat(t.stream().filter(name -> effects.supplies(t.indexOf(name))))
        .containsExactly("R", "C");
    assertThat(names(FURNACE, effects.switching())).containsExactly("heat input");
    assertThat(names(FURNACE, effects.harmless())).containsExactly("heat input");
    assertThat(names(FURNACE, effects.bits(Set.of("fan input", "gas valve", "no such load"))))
        .containsExactlyInAnyOrder("fan input", "gas valve");
    assertThat(names(PANEL, new NearEffects(PANEL).switching()))
        .containsExactlyInAnyOrder(
            "panel's heat input", "panel's cooling input", "panel's fan input");
    assertThat(names(PANEL, new NearEffects(PANEL).harmless()))
        .isEqualTo(names(PANEL, new NearEffects(PANEL).switching()));
  }

  /** Asked again, and asked for another grouping, it says the same. */
  @Test
  void groupingsAreKeptApart() {
    NearEffects effects = new NearEffects(FURNACE);
    Effect heat = effects.of(group(FURNACE, "R-W"));
    assertThat(names(FURNACE, effects.of(group(FURNACE, "R-G")).sure()))
        .containsExactly("fan input");
    assertThat(effects.of(group(FURNACE, "R-W"))).isSameAs(heat);
  }

  @Test
  void sixtyFourLoadsAreTheMost() {
    List<Element> elements = new ArrayList<>();
    for (int k = 0; k < 64; k++) {
      elements.add(load("load " + k, Point.near("W"), Point.near("C"), Role.NONE));
    }
    Equipment most = new Equipment("drawn up", List.of("W", "C"), elements, Map.of());
    assertThat(new NearEffects(most).harmless()).isEqualTo(-1);
    elements.add(load("load 64", Point.near("W"), Point.near("C"), Role.NONE));
    Equipment more = new Equipment("drawn up", List.of("W", "C"), elements, Map.of());
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new NearEffects(more))
        .withMessage("loads=65");
  }
}
