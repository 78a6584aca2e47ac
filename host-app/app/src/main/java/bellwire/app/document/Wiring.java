package bellwire.app.document;

import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.app.document.ReportContents.Cable;
import bellwire.app.document.ReportContents.Survey;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Stage;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.sheet.SurveySheet;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/** Who goes where, as labels and the panel's card say it. */
final class Wiring {
  /**
   * One conductor.
   *
   * @param cable it is in
   * @param port 0 for P1; −1 where it is known from a landing alone
   * @param name such as 'red'
   * @param farName its colour at the far end, where that is another one; else empty
   * @param near equipment's terminal; empty where its end is free, or not known
   * @param far control's terminal; likewise
   * @param position at the far end, as a survey found it; 0 where not known
   */
  record Strand(
      Cable cable,
      int port,
      String name,
      String farName,
      String near,
      String far,
      int position,
      boolean landed) {}

  private final ReportContents contents;

  Wiring(ReportContents contents) {
    this.contents = contents;
  }

  List<Strand> strands() {
    List<Strand> out = new ArrayList<>();
    for (Cable cable : contents.cables()) {
      out.addAll(strands(cable));
    }
    return out;
  }

  List<Strand> strands(Cable cable) {
    List<Landed> landed = new ArrayList<>(plan(cable).map(LandingPlan::landed).orElse(List.of()));
    List<Strand> out = new ArrayList<>();
    new TreeMap<>(ports(cable))
        .forEach(
            (port, colours) -> {
              Optional<Landed> own = landed.stream().filter(l -> is(l, port, colours)).findFirst();
              own.ifPresent(landed::remove);
              out.add(strand(cable, port, colours, own));
            });
    for (Landed l : landed) {
      out.add(new Strand(cable, -1, l.conductor(), "", words(l.near()), words(l.far()), 0, true));
    }
    return out;
  }

  /** Of the last landing of this cable; of one that belongs to no cable where that is alone. */
  private Optional<LandingPlan> plan(Cable cable) {
    boolean alone = contents.cables().size() == 1;
    return contents.landings().stream()
        .filter(l -> l.row().cable() == cable.row().id() || l.row().cable() == 0 && alone)
        .flatMap(l -> l.draft().stream())
        .map(d -> d.plan(Which.AS_PLANNED))
        .filter(plan -> plan.landed().stream().anyMatch(l -> l.near() != null || l.far() != null))
        .reduce((a, b) -> b);
  }

  /** Jumpers of the landing that the strands are of, in words. */
  List<String> jumpers(Cable cable) {
    return plan(cable).map(LandingPart::jumpers).orElse(List.of());
  }

  private record Colours(String near, String far, int position) {}

  private static Map<Integer, Colours> ports(Cable cable) {
    Map<Integer, Colours> ports = new TreeMap<>();
    for (ConductorRow row : cable.conductors()) {
      ports.put(row.port(), new Colours(row.nearColour(), row.farColour(), 0));
    }
    cable
        .last(Stage.AS_LEFT)
        .or(() -> cable.last(Stage.AS_FOUND))
        .flatMap(Survey::sheet)
        .ifPresent(
            sheet -> sheet.conductors().forEach(c -> ports.merge(port(c), of(c), Wiring::merged)));
    return ports;
  }

  private static int port(SurveySheet.Conductor c) {
    return Integer.parseInt(c.port().substring(1)) - 1;
  }

  private static Colours of(SurveySheet.Conductor c) {
    return new Colours(c.colour() == null ? "" : c.colour(), "", c.position());
  }

  private static Colours merged(Colours noted, Colours seen) {
    return new Colours(
        noted.near().isEmpty() ? seen.near() : noted.near(), noted.far(), seen.position());
  }

  private static boolean is(Landed landed, int port, Colours colours) {
    String name = "P" + (port + 1);
    Set<String> names = new LinkedHashSet<>(List.of(name));
    if (!colours.near().isEmpty()) {
      names.add(colours.near());
      names.add(name + " " + colours.near());
    }
    return names.contains(landed.conductor());
  }

  private static Strand strand(Cable cable, int port, Colours colours, Optional<Landed> landed) {
    String name = colours.near().isEmpty() ? "P" + (port + 1) : colours.near();
    return new Strand(
        cable,
        port,
        name,
        colours.far().equals(colours.near()) ? "" : colours.far(),
        landed.map(l -> words(l.near())).orElse(""),
        landed.map(l -> words(l.far())).orElse(""),
        colours.position(),
        landed.isPresent());
  }

  private static String words(@Nullable String terminal) {
    return terminal == null ? "" : terminal;
  }
}
