package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Joint;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.Transformer;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;

/** Loads and controls fed from one transformer whose other end is on another's common. */
final class Returns {
  private final Scene scene;
  private final Sightings seen;

  Returns(Scene scene, Sightings seen) {
    this.scene = scene;
    this.seen = seen;
  }

  private record Mix(Transformer from, Transformer to) {
    String words() {
      return "fed from " + from.name() + ", returned to " + to.name();
    }
  }

  /** Tells those of the loads that do not run for this, and takes them off the list. */
  void of(List<LoadResult> missing) {
    if (scene.transformers().size() < 2) {
      return;
    }
    for (LoadResult l : List.copyOf(missing)) {
      Optional<Mix> mix = mix(l.load().a(), l.load().b()).or(() -> mix(l.load().b(), l.load().a()));
      mix.ifPresent(
          m -> {
            missing.remove(l);
            String gets = Figures.gets(l) + ", " + m.words();
            add(l.load().name(), m, gets, l.load().a(), l.load().b(), r -> runs(r, l.load()));
          });
    }
  }

  /** Whether the control is blank for this. */
  boolean ofControl() {
    Control.Supply supply = scene.of.control().supply();
    String hot = supply.hot();
    String common = supply.common();
    if (hot == null || common == null || scene.transformers().size() < 2) {
      return false;
    }
    Optional<Mix> mix = mix(Point.far(hot), Point.far(common));
    mix.ifPresent(
        m -> {
          String gets = Feeding.gets(scene) + ", " + m.words();
          add("the control", m, gets, Point.far(hot), Point.far(common), StateResult::lit);
        });
    return mix.isPresent();
  }

  private Optional<Mix> mix(Point hot, Point common) {
    Copper copper = scene.copper();
    List<Transformer> from = new ArrayList<>();
    List<Transformer> to = new ArrayList<>();
    for (Transformer t : scene.transformers()) {
      if (copper.joined(t.a(), hot)) {
        from.add(t);
      }
      if (copper.joined(t.b(), common)) {
        to.add(t);
      }
    }
    boolean same = from.stream().anyMatch(t -> to.contains(t) || copper.joined(t.b(), common));
    return from.isEmpty() || to.isEmpty() || same
        ? Optional.empty()
        : Optional.of(new Mix(from.get(0), to.get(0)));
  }

  private static boolean runs(StateResult in, Load load) {
    return in.loads().stream()
        .anyMatch(l -> l.load().equals(load) && l.energised() == StateResult.Energised.ON);
  }

  private void add(
      String what, Mix mix, String words, Point hot, Point common, Predicate<StateResult> gone) {
    seen.fault(
        LoopFinding.COMMON_OF_OTHER_SUPPLY,
        what,
        scene,
        0,
        () -> {
          List<Joint> way = new ArrayList<>(scene.copper().way(mix.from().a(), hot));
          List<Joint> back = scene.copper().way(common, mix.to().b());
          List<String> path = new ArrayList<>(Ways.names(mix.from(), way));
          path.add(what);
          path.addAll(Ways.along(common, back));
          path.add(mix.to().name());
          way.addAll(back);
          return new Account(words + scene.cures.words(scene, gone), path, Ways.places(way));
        });
  }
}
