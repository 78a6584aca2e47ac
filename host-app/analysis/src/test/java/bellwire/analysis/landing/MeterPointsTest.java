package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Wire;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Between which points a technician measures. */
class MeterPointsTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();

  @Test
  void whereAMeterIsPut() {
    assertThat(MeterPoints.of(FURNACE))
        .extracting(MeterPoints.Pair::words)
        .containsExactly(
            "R and C at the equipment",
            "W and C at the equipment",
            "Y and C at the equipment",
            "G and C at the equipment",
            "R and C at the control",
            "W and C at the control",
            "Y and C at the control",
            "G and C at the control",
            "the two leads of the heat input",
            "the two leads of the gas valve",
            "the two leads of the fan input",
            "the two leads of the compressor contactor");
    // A control without a common is measured against what its contacts are fed from
    assertThat(MeterPoints.of(SampleLoops.BOILER.healthy()))
        .extracting(MeterPoints.Pair::words)
        .containsExactly(
            "R and C at the equipment",
            "W and C at the equipment",
            "W and R at the control",
            "the two leads of the zone valve",
            "the two leads of the burner relay");
    assertThat(MeterPoints.of(TWO))
        .extracting(MeterPoints.Pair::words)
        .contains(
            "RH and CH at the equipment",
            "C and CH at the equipment",
            "CH and C at the equipment",
            "RH and RC at the equipment")
        .doesNotContain("RC and RH at the equipment", "RH and RH at the equipment")
        .filteredOn(w -> w.endsWith("at the control"))
        .containsExactly(
            "RC and C at the control",
            "RH and C at the control",
            "W and C at the control",
            "Y and C at the control",
            "G and C at the control");
  }

  private static List<String> with(Installation of, String terminal, Point a, Point b) {
    Equipment e = of.equipment();
    List<String> terminals = new ArrayList<>(e.terminals());
    terminals.add(terminal);
    List<Element> elements = new ArrayList<>(e.elements());
    elements.add(new Wire("lead", a, b, 0.05));
    return MeterPoints.of(
            of.withEquipment(new Equipment(e.title(), terminals, elements, e.wanted())))
        .stream()
        .map(MeterPoints.Pair::words)
        .toList();
  }

  /** Fuse, float switch and wire lead on, whichever way round they are drawn; metal does not. */
  @Test
  void whatLeadsToATransformersEndIsThatEnd() {
    Installation pump = SampleLoops.HEAT_PUMP_O.healthy();
    Point r = Point.near("R");
    Point other = Point.near("R2");
    assertThat(with(FURNACE, "R2", r, other)).containsOnlyOnce("R and R2 at the equipment");
    assertThat(with(pump, "R2", other, r)).containsOnlyOnce("R and R2 at the equipment");
    assertThat(with(FURNACE, "R2", Point.near("W"), other))
        .contains("R2 and C at the equipment")
        .doesNotContain("R and R2 at the equipment");
    assertThat(with(FURNACE, "frame", Point.METAL, Point.near("frame")))
        .contains("frame and C at the equipment")
        .doesNotContain("R and frame at the equipment");
    assertThat(with(FURNACE, "C2", Point.near("C"), Point.near("C2")))
        .contains("R and C2 at the equipment", "C2 and C at the equipment");
  }
}
