package bellwire.analysis.landing;

import bellwire.analysis.circuit.OpeningTime;
import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.Transformer;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Supplies whose two ends are joined with no load between, and fuses that open. */
final class Shorts {
  /**
   * A fuse that may take longer than this on a short is no protection of a small transformer;
   * common practice, no source.
   */
  static final double LONG_SECONDS = 60;

  private Shorts() {}

  /** Whether there is a short. */
  static boolean look(Scene scene, Sightings seen) {
    boolean any = false;
    for (Transformer transformer : scene.transformers()) {
      if (scene.copper().joined(transformer.a(), transformer.b())) {
        any = true;
        add(scene, seen, transformer);
      } else {
        onMetal(scene, seen, transformer);
      }
    }
    return any;
  }

  private static void add(Scene scene, Sightings seen, Transformer transformer) {
    List<Joint> way = scene.copper().way(transformer.a(), transformer.b());
    Set<String> names = way.stream().map(Joint::name).collect(Collectors.toSet());
    Optional<FuseResult> fuse = first(scene.result, names, transformer);
    double amps = scene.of(transformer).amps();
    LoopFinding kind = fuse.map(f -> kind(f.opens())).orElse(LoopFinding.SHORT_WITHOUT_FUSE);
    seen.fault(
        kind,
        transformer.name() + names.stream().sorted().toList(),
        scene,
        amps,
        () -> {
          String drives =
              String.format(
                  Locale.ROOT,
                  "%s, %.1f V without load, drives %.1f A%s",
                  transformer.name(),
                  transformer.openVolts(),
                  amps,
                  way.stream().anyMatch(Shorts::metal) ? " over bare metal" : "");
          String because = scene.cures.words(scene, r -> gone(r) && eased(r, transformer, amps));
          return new Account(
              drives
                  + fuse.map(f -> " through " + Figures.rating(f)).orElse("")
                  + because
                  + fuse.map(f -> "; it " + f.opens().words()).orElse("")
                  + fuse.map(f -> afterwards(scene, f)).orElse("")
                  + rated(transformer, kind, amps),
              path(scene, transformer, way),
              Ways.places(way));
        });
  }

  private static List<String> path(Scene scene, Transformer transformer, List<Joint> way) {
    List<String> path = scene.simulation.path(scene.result.state(), transformer.name());
    return path.isEmpty() ? Ways.names(transformer, way) : path;
  }

  static boolean gone(StateResult then) {
    return then.transformers().stream().noneMatch(StateResult.TransformerResult::overloaded);
  }

  private static boolean metal(Joint joint) {
    return joint.a().equals(Point.METAL) || joint.b().equals(Point.METAL);
  }

  /** Whether a transformer gives less than it did; one shorted far away may not be overloaded. */
  private static boolean eased(StateResult then, Transformer transformer, double amps) {
    return then.transformers().stream()
        .noneMatch(t -> t.transformer().equals(transformer) && t.amps() > 0.9 * amps);
  }

  private static String rated(Transformer transformer, LoopFinding kind, double amps) {
    return kind == LoopFinding.SUPPLY_SHORTED
        ? ""
        : String.format(
            Locale.ROOT,
            "; the transformer, rated for %.1f A, %s",
            transformer.ratedAmps(),
            amps > transformer.ratedAmps() ? "overheats" : "bears it, and the cable is heated");
  }

  /** What is left once every fuse that opens for certain has opened. */
  private static String afterwards(Scene scene, FuseResult fuse) {
    if (!fuse.opens().certain()) {
      return "";
    }
    StateResult after = scene.simulation.afterFuses(scene.result.state());
    return !after.lit() ? ", then the control is blank" : "";
  }

  private static LoopFinding kind(OpeningTime opens) {
    return opens.latestSeconds() <= LONG_SECONDS
        ? LoopFinding.SUPPLY_SHORTED
        : LoopFinding.SHORT_MAY_LAST;
  }

  /** The fuse in the way that has opened soonest for certain. */
  private static Optional<FuseResult> first(
      StateResult in, Set<String> way, Transformer transformer) {
    return in.fuses().stream()
        .filter(f -> way.contains(f.name()) || f.name().equals(transformer.breakerName()))
        .min(
            Comparator.comparingDouble((FuseResult f) -> f.opens().latestSeconds())
                .thenComparingDouble(f -> f.opens().earliestSeconds()));
  }

  /** A hot end on metal while its common is not. */
  private static void onMetal(Scene scene, Sightings seen, Transformer transformer) {
    if (!scene.copper().joined(transformer.a(), Point.METAL)) {
      return;
    }
    List<Joint> way = scene.copper().way(transformer.a(), Point.METAL);
    seen.fault(
        LoopFinding.TOUCHES_METAL,
        transformer.name(),
        scene,
        0,
        () ->
            new Account(
                String.format(
                    Locale.ROOT,
                    "%.1f V of %s stand between bare metal and its common",
                    transformer.openVolts(),
                    transformer.name()),
                Ways.names(transformer, way),
                Ways.places(way)));
  }

  /** Fuses that open, and transformers overloaded, with no short. */
  static void overloads(Scene scene, Sightings seen) {
    Set<String> told = new HashSet<>();
    for (FuseResult fuse : scene.result.fuses()) {
      if (fuse.opens().possible() && fuse.amps() > fuse.ratedAmps()) {
        told.add(fuse.name());
        seen.fault(
            LoopFinding.FUSE_OPENS,
            fuse.name(),
            scene,
            fuse.amps(),
            () ->
                new Account(
                    String.format(
                        Locale.ROOT,
                        "%.1f A through %s, which %s%s",
                        fuse.amps(),
                        Figures.rating(fuse),
                        fuse.opens().words(),
                        scene.cures.words(scene, r -> holds(r, fuse))),
                    List.of(),
                    List.of(fuse.name())));
      }
    }
    for (StateResult.TransformerResult t : scene.result.transformers()) {
      if (t.overloaded()) {
        seen.fault(
            LoopFinding.TRANSFORMER_OVERLOADED,
            t.transformer().name(),
            scene,
            t.amps(),
            () -> new Account(overload(scene, t), List.of(), List.of(t.transformer().name())));
      }
    }
  }

  private static boolean holds(StateResult then, FuseResult fuse) {
    return then.fuses().stream()
        .noneMatch(f -> f.name().equals(fuse.name()) && f.opens().possible());
  }

  private static String overload(Scene scene, StateResult.TransformerResult t) {
    String on =
        scene.result.loads().stream()
            .filter(l -> l.energised() != StateResult.Energised.OFF && l.amps() > 0.05)
            .map(l -> l.load().name() + String.format(Locale.ROOT, " %.2f A", l.amps()))
            .collect(Collectors.joining(", "));
    return String.format(
        Locale.ROOT,
        "%s carries %.2f A, rated for %.2f A%s%s",
        t.transformer().name(),
        t.amps(),
        t.transformer().ratedAmps(),
        on.isEmpty() ? "" : " (" + on + ")",
        scene.cures.words(scene, Shorts::gone));
  }
}
