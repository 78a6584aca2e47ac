package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.PartMistake.CoilOpen;
import bellwire.analysis.landing.PartMistake.JumperChanged;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The way of the current as the samples are wired, and what it is put down to. */
class PathsTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();
  private static final Mistake JUMPER = new JumperChanged(new Jumper(Side.FAR, "RC", "RH"), true);

  private static Found first(Installation of, LoopFinding kind) {
    List<Found> all = LandingCheck.check(of);
    return all.stream()
        .filter(f -> f.kind() == kind)
        .findFirst()
        .orElseThrow(() -> new AssertionError("no " + kind + " in " + all));
  }

  private static void assertPath(Found found, String path) {
    assertThat(String.join(", ", found.path())).isEqualTo(path);
  }

  private static void assertWhere(Found found, String where) {
    assertThat(String.join(", ", found.where())).isEqualTo(where);
  }

  @Test
  void fromTheTransformerOverConductorsAndContactsBackToIt() {
    Found wrong =
        first(new Exchanged(Side.FAR, "white", "W", "yellow", "Y").in(FURNACE), WRONG_LOAD);
    assertPath(
        wrong,
        "main transformer, board fuse, R at the equipment, red, R at the control, contact R-W, W at"
            + " the control, yellow, Y at the equipment, float switch, outdoor cable's Y, compressor"
            + " contactor, outdoor cable's C, C at the equipment");
    assertWhere(wrong, "compressor contactor");
  }

  @Test
  void overBareMetal() {
    Found shorted = first(new TouchingMetal("red", 0.5).in(FURNACE), SUPPLY_SHORTED);
    assertPath(
        shorted,
        "main transformer, board fuse, R at the equipment, red, touch red-metal, bare metal, bond of"
            + " the common, C at the equipment");
    assertWhere(shorted, "board fuse, red, touch red-metal, bond of the common");
    Found metal = first(new TouchingMetal("red", 0.5).in(HEAT), TOUCHES_METAL);
    assertPath(metal, "main transformer, R at the equipment, red, touch red-metal, bare metal");
    assertWhere(metal, "red, touch red-metal");
  }

  /** No current flows through an open coil: the copper that leads to it is told. */
  @Test
  void whereNothingFlowsTheCopperIsTold() {
    Found never = first(new CoilOpen("compressor contactor").in(FURNACE), NEVER_RUNS);
    assertThat(never.path())
        .startsWith("main transformer", "board fuse", "R at the equipment", "red")
        .contains("yellow", "compressor contactor")
        .endsWith("C at the equipment");
    assertPath(first(new CopperMistake.Broken("yellow").in(FURNACE), NEVER_RUNS), "");
  }

  @Test
  void aroundTwoSupplies() {
    Installation tied = Variant.wired(TWO, "wire CH-C", Point.near("CH"), Point.near("C"));
    String way =
        "heating transformer, RH at the equipment, red, RH at the control, jumper RC-RH, RC at the"
            + " control, black, RC at the equipment, cooling transformer, C at the equipment, wire"
            + " CH-C, CH at the equipment";
    Found phase = first(JUMPER.in(tied), SUPPLIES_IN_PHASE);
    assertPath(phase, way);
    assertWhere(phase, "red, jumper RC-RH, black, wire CH-C");
    Installation opposed = Variant.degrees(tied, "cooling transformer", 180);
    assertPath(first(JUMPER.in(opposed), SUPPLIES_OPPOSED), way);
    // Crossed: hot on common at both ends
    Installation crossed =
        Variant.wired(
            Variant.wired(TWO, "wire CH-RC", Point.near("CH"), Point.near("RC")),
            "wire RH-C",
            Point.near("RH"),
            Point.near("C"));
    Found round = first(crossed, SUPPLIES_OPPOSED);
    assertPath(
        round,
        "heating transformer, RH at the equipment, wire RH-C, C at the equipment, cooling"
            + " transformer, RC at the equipment, wire CH-RC, CH at the equipment");
    assertThat(round.words()).contains("joined at both ends: 54.0 V drive ");
  }

  @Test
  void whereTwoSuppliesMeet() {
    Found hots = first(JUMPER.in(TWO), SUPPLIES_MEET);
    assertPath(
        hots,
        "RH at the equipment, red, RH at the control, jumper RC-RH, RC at the control, black, RC at"
            + " the equipment");
    assertThat(hots.words())
        .isEqualTo(
            "heating transformer and cooling transformer are joined at their hots and nowhere else:"
                + " nothing circulates, 0.0 V stand between their commons");
    Found commons =
        first(Variant.wired(TWO, "wire CH-C", Point.near("CH"), Point.near("C")), SUPPLIES_MEET);
    assertPath(commons, "CH at the equipment, wire CH-C, C at the equipment");
    assertThat(commons.words())
        .contains("at their commons and nowhere else", "0.0 V stand between their hots");
    Found series =
        first(Variant.wired(TWO, "wire CH-RC", Point.near("CH"), Point.near("RC")), SUPPLIES_MEET);
    assertPath(series, "CH at the equipment, wire CH-RC, RC at the equipment");
    assertThat(series.words())
        .contains("in series, hot to common, and nowhere else", "54.0 V stand between their free");
    Found other =
        first(Variant.wired(TWO, "wire RH-C", Point.near("RH"), Point.near("C")), SUPPLIES_MEET);
    assertPath(other, "RH at the equipment, wire RH-C, C at the equipment");
    assertThat(other.words()).contains("54.0 V stand between their free ends");
  }

  /** 27 V a third of a turn apart: 27·√3 V; a quarter: 27·√2 V. */
  @Test
  void voltsBetweenTwoPhases() {
    Installation third = Variant.degrees(TWO, "cooling transformer", 120);
    assertThat(first(JUMPER.in(third), SUPPLIES_MEET).words()).contains(" 46.8 V stand between");
    Installation quarter = Variant.degrees(TWO, "cooling transformer", 90);
    assertThat(first(JUMPER.in(quarter), SUPPLIES_MEET).words()).contains(" 38.2 V stand between");
    Installation series = Variant.wired(third, "wire CH-RC", Point.near("CH"), Point.near("RC"));
    assertThat(first(series, SUPPLIES_MEET).words()).contains(" 27.0 V stand between");
  }

  @Test
  void fedFromOneAndReturnedToTheOther() {
    Found blank =
        first(
            new LandingMistake.Mislanded(Side.NEAR, "blue", "C", "CH", false).in(TWO),
            COMMON_OF_OTHER_SUPPLY);
    assertPath(
        blank,
        "cooling transformer, RC at the equipment, black, RC at the control, the control, C at the"
            + " control, blue, CH at the equipment, heating transformer");
    assertWhere(blank, "black, blue");
    Found valve =
        first(
            new LandingMistake.Mislanded(Side.NEAR, "red", "RH", "RC", true).in(TWO),
            COMMON_OF_OTHER_SUPPLY);
    assertPath(
        valve,
        "cooling transformer, RC at the equipment, red, RH at the control, contact RH-W, W at the"
            + " control, white, W at the equipment, limit switch, gas valve, CH at the equipment,"
            + " heating transformer");
  }

  @Test
  void theWayWithTheFewestJoints() {
    Point a = Point.inside("a");
    Point b = Point.inside("b");
    Point c = Point.inside("c");
    Point d = Point.inside("d");
    Joint ab = new Joint("ab", a, b, 1);
    Joint cb = new Joint("cb", c, b, 1);
    Joint cd = new Joint("cd", c, d, 1);
    Joint da = new Joint("da", d, a, 1);
    Copper line = new Copper(List.of(ab, cb, cd));
    assertThat(line.way(a, d)).containsExactly(ab, cb, cd);
    assertThat(line.way(d, a)).containsExactly(cd, cb, ab);
    assertThat(line.way(a, a)).isEmpty();
    assertThat(line.way(a, Point.inside("e"))).isEmpty();
    assertThat(line.joined(a, d)).isTrue();
    assertThat(line.joined(a, a)).isTrue();
    assertThat(line.joined(a, Point.inside("e"))).isFalse();
    assertThat(new Copper(List.of(ab, cb, cd, da)).way(a, d)).containsExactly(da);
  }

  static List<Made> table() {
    return Table.all();
  }

  /** A spare that is broken, and another that touches it, are looked at before what is landed. */
  @ParameterizedTest
  @MethodSource("table")
  void aFaultOfSparesIsNeverTheReason(Made made) {
    Installation of = made.made();
    List<Cable.Conductor> conductors = new ArrayList<>(of.cable().conductors());
    List<Landed> landed = new ArrayList<>(of.plan().landed());
    List<Cable.Bridge> bridges = new ArrayList<>();
    conductors.add(new Cable.Conductor("grey", null, null, Double.POSITIVE_INFINITY, 0));
    conductors.add(new Cable.Conductor("pink", null, null, 0.5, 0));
    landed.add(new Landed("grey", null, null));
    landed.add(new Landed("pink", null, null));
    bridges.add(new Cable.Bridge("grey", "pink", 0.05, 0.2));
    bridges.addAll(of.cable().bridges());
    Installation beside =
        of.withCable(new Cable(of.cable().name(), conductors, bridges))
            .withPlan(new LandingPlan(landed, of.plan().jumpers(), of.plan().settings()));
    assertThat(LandingCheck.check(beside)).isEqualTo(made.found());
  }

  @Test
  void twoThingsWrongEachHaveTheirReason() {
    Installation both =
        new Touching("red", "green", 0.5, false).in(new CopperMistake.Broken("white").in(FURNACE));
    assertThat(first(both, RUNS_UNCALLED).words()).endsWith("because red touches green");
    assertThat(first(both, NEVER_RUNS).words()).endsWith("because white is broken");
  }
}
