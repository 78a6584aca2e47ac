package bellwire.analysis.loop;

import java.util.Set;

/**
 * Everything that decides what a call does.
 *
 * @param open names of the equipment's fuses, breakers and switches that are open, and of
 *     transformers that give nothing
 */
public record Installation(
    Equipment equipment, Control control, Cable cable, LandingPlan plan, Set<String> open) {
  public Installation {
    open = Set.copyOf(open);
  }

  public Installation(Equipment equipment, Control control, Cable cable, LandingPlan plan) {
    this(equipment, control, cable, plan, Set.of());
  }

  public Installation withEquipment(Equipment other) {
    return new Installation(other, control, cable, plan, open);
  }

  public Installation withCable(Cable other) {
    return new Installation(equipment, control, other, plan, open);
  }

  public Installation withPlan(LandingPlan other) {
    return new Installation(equipment, control, cable, other, open);
  }

  public Installation withOpen(Set<String> names) {
    return new Installation(equipment, control, cable, plan, names);
  }
}
