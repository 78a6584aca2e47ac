package bellwire.analysis.landing;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Transformer;
import java.util.List;

/** The installation where all that is uncertain is against it. */
final class LowMains {
  /** Mains this much below nominal are to be expected; common practice, no source. */
  static final double FRACTION = 0.95;

  /** Standard uncertainties of a conductor's ohms that are added to them. */
  private static final double COVERAGE = 2;

  private LowMains() {}

  static Installation of(Installation installation) {
    Equipment equipment = installation.equipment();
    List<Element> elements =
        equipment.elements().stream().map(e -> e instanceof Transformer t ? low(t) : e).toList();
    Cable cable = installation.cable();
    List<Cable.Conductor> conductors = cable.conductors().stream().map(LowMains::high).toList();
    return installation
        .withEquipment(
            new Equipment(equipment.title(), equipment.terminals(), elements, equipment.wanted()))
        .withCable(new Cable(cable.name(), conductors, cable.bridges()));
  }

  /** The same impedance: volts and amperes fall together. */
  private static Transformer low(Transformer t) {
    return new Transformer(
        t.name(),
        t.a(),
        t.b(),
        t.openVolts() * FRACTION,
        t.ratedVolts() * FRACTION,
        t.voltAmperes() * FRACTION * FRACTION,
        t.reactancePerResistance(),
        t.degrees(),
        t.breakerAmps());
  }

  private static Cable.Conductor high(Cable.Conductor c) {
    return c.broken()
        ? c
        : new Cable.Conductor(
            c.name(), c.nearColour(), c.farColour(), c.ohms() + COVERAGE * c.uOhms(), c.uOhms());
  }
}
