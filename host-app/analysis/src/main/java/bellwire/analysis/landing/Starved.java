package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Sightings.Account;
import bellwire.analysis.loop.Contact;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;

/** Loads that a call reaches with too few volts to pull in. */
final class Starved {
  /** Of what it needs: less is no call at all, but what leaks into a path that is missing. */
  private static final double REACHED = 0.2;

  private final Scene scene;
  private final Sightings seen;

  Starved(Scene scene, Sightings seen) {
    this.scene = scene;
    this.seen = seen;
  }

  /** Those of the loads called: only the heaviest is told, as it takes the others' volts. */
  private List<LoadResult> of(StateResult in) {
    return in.loads().stream()
        .filter(l -> scene.must(l.load()))
        .filter(
            l ->
                l.energised() == Energised.DOUBTFUL
                    || l.energised() == Energised.OFF
                        && l.volts() >= REACHED * l.load().pickUpVolts()
                        && Drop.reached(scene, l.load()))
        .sorted(Comparator.comparingDouble(LoadResult::amps).reversed())
        .toList();
  }

  /** Tells the heaviest as the volts are, and returns them all. */
  List<LoadResult> now() {
    List<LoadResult> now = of(scene.result);
    if (!now.isEmpty()) {
      LoadResult heaviest = now.get(0);
      LoopFinding kind =
          heaviest.energised() == Energised.OFF
              ? LoopFinding.DOES_NOT_PULL_IN
              : LoopFinding.MAY_NOT_PULL_IN;
      add(kind, heaviest, Figures.gets(heaviest) + Drop.words(scene, heaviest));
    }
    return now;
  }

  /**
   * Takes those that are starved, and what they in turn would switch on, off the missing.
   *
   * @return whether there are any
   */
  boolean tell(List<LoadResult> missing, Supplier<StateResult> lowMains) {
    List<LoadResult> now = now();
    if (!now.isEmpty()) {
      missing.removeAll(now);
      if (now.stream().anyMatch(this::switches)) {
        missing.clear();
      }
      return true;
    }
    List<LoadResult> low = new ArrayList<>(of(lowMains.get()));
    low.removeIf(l -> missing.stream().anyMatch(m -> m.load().equals(l.load())));
    if (low.isEmpty()) {
      return false;
    }
    LoadResult heaviest = low.get(0);
    String mains =
        String.format(Locale.ROOT, "with the mains %.0f %% low ", 100 * (1 - LowMains.FRACTION));
    String words = mains + Figures.gets(heaviest) + Drop.words(scene, heaviest);
    add(LoopFinding.MAY_NOT_PULL_IN, heaviest, words);
    return false;
  }

  private boolean switches(LoadResult l) {
    return scene.of.equipment().all(Contact.class).stream()
        .anyMatch(c -> c.load().equals(l.load().name()));
  }

  private void add(LoopFinding kind, LoadResult l, String words) {
    seen.fault(
        kind,
        l.load().name(),
        scene,
        -l.volts(),
        () -> new Account(words, Ways.of(scene, l.load()), List.of(l.load().name())));
  }
}
