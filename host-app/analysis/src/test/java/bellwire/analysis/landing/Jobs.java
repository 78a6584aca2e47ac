package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;

/** Replacements drawn up in a line, and their proposals. */
final class Jobs {
  private Jobs() {}

  /**
   * @param landing conductor:near:far of the old control, "-" for a free end
   */
  static Replacement job(Equipment equipment, Control control, String landing) {
    List<Landed> landed = new ArrayList<>();
    List<Cable.Conductor> conductors = new ArrayList<>();
    for (String words : landing.split(" ")) {
      String[] part = words.split(":");
      landed.add(
          new Landed(
              part[0], part[1].equals("-") ? null : part[1], part[2].equals("-") ? null : part[2]));
      conductors.add(new Cable.Conductor(part[0], part[0], part[0], 0.52, 0.01));
    }
    return new Replacement(
        equipment,
        control,
        new Cable("drawn up", conductors, List.of()),
        Map.of(),
        new LandingPlan(landed, Set.of(), Map.of()));
  }

  static Replacement with(Replacement job, Cable cable, Map<String, String> doubtful) {
    return new Replacement(job.equipment(), job.control(), cable, doubtful, job.asFound());
  }

  static Cable with(Cable cable, String conductor, double ohms) {
    return new Cable(
        cable.name(),
        cable.conductors().stream()
            .map(
                c ->
                    c.name().equals(conductor)
                        ? new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), ohms, 0)
                        : c)
            .toList(),
        cable.bridges());
  }

  static Replacement bridged(Replacement job, Cable.Bridge... bridges) {
    Cable cable = job.cable();
    return with(job, new Cable(cable.name(), cable.conductors(), List.of(bridges)), job.doubtful());
  }

  static Replacement jumpered(Replacement job, Control.Jumper... jumpers) {
    LandingPlan found =
        new LandingPlan(job.asFound().landed(), Set.of(jumpers), job.asFound().settings());
    return new Replacement(job.equipment(), job.control(), job.cable(), job.doubtful(), found);
  }

  /** Proved, and free of faults where there is a plan. */
  static Proposal plan(Replacement job) {
    Proposal proposal = Planner.plan(job, Planner.Progress.NONE);
    LandingPlan plan = proposal.plan();
    if (plan != null) {
      assertThat(
              LandingCheck.check(
                  new Installation(job.equipment(), job.control(), job.cable(), plan)))
          .allMatch(Found::notice);
    }
    assertThat(proposal.proved()).isTrue();
    return proposal;
  }

  static Landed landed(Proposal proposal, String conductor) {
    return Objects.requireNonNull(proposal.plan()).landed().stream()
        .filter(l -> l.conductor().equals(conductor))
        .findFirst()
        .orElseThrow();
  }

  static List<String> words(List<? extends Proposal.Change> changes) {
    return changes.stream().map(Proposal.Change::words).toList();
  }

  /** With further terminals T2, T3 and so on, which nothing closes. */
  static Control wide(Control c, int terminals) {
    List<String> names = new ArrayList<>(c.terminals());
    while (names.size() < terminals) {
      names.add("T" + names.size());
    }
    return new Control(
        c.title(), names, c.supply(), c.contacts(), c.jumpers(), c.settings(), c.states());
  }
}
