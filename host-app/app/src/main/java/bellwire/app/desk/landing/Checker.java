package bellwire.app.desk.landing;

import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

/**
 * Checks landings on a thread of its own. One that is asked for makes those before it of no
 * account: they are not begun, and what they find is not told.
 */
final class Checker {
  private final AtomicLong newest = new AtomicLong();
  private final ExecutorService worker = Aside.thread("bellwire-landing-check");

  /**
   * @param told on the checker's thread, unless a newer one was asked for meanwhile
   * @param failed likewise, of what the circuit can't be computed for
   */
  void check(
      LandingDraft draft, Which which, Consumer<Checked> told, Consumer<RuntimeException> failed) {
    long mine = newest.incrementAndGet();
    Installation installation = draft.installation(which);
    if (installation == null) {
      return;
    }
    worker.execute(
        () -> {
          if (newest.get() != mine) {
            return;
          }
          try {
            Checked checked = checked(draft, which, installation);
            if (newest.get() == mine) {
              told.accept(checked);
            }
          } catch (RuntimeException e) {
            if (newest.get() == mine) {
              failed.accept(e);
            }
          }
        });
  }

  /** Nothing is told any more. */
  void close() {
    newest.incrementAndGet();
    worker.shutdownNow();
  }

  static Checked checked(LandingDraft draft, Which which, Installation installation) {
    Simulation simulation = new Simulation(installation);
    var found = LandingCheck.check(installation, simulation);
    PathKeys keys = new PathKeys(draft, which);
    List<Checked.State> states = new ArrayList<>();
    for (StateResult result : simulation.states()) {
      states.add(state(installation, simulation, result, keys));
    }
    List<FindingWay> ways =
        found.stream().map(f -> FindingWay.of(f, installation, simulation, keys)).toList();
    return new Checked(draft, which, found, ways, List.copyOf(states));
  }

  private static Checked.State state(
      Installation installation, Simulation simulation, StateResult result, PathKeys keys) {
    Control.State state = result.state();
    Set<String> lit = new HashSet<>();
    List<Checked.Run> loads = new ArrayList<>();
    Equipment.Wanted wanted = installation.equipment().wantedOn(state.call());
    for (StateResult.LoadResult l : result.loads()) {
      boolean on = l.energised() != Energised.OFF;
      if (on || l.held()) {
        String name = l.load().name();
        String figures = String.format(Locale.ROOT, "%.1f V, %.2f A", l.volts(), l.amps());
        boolean meant = wanted.must().contains(name) || wanted.may().contains(name);
        loads.add(new Checked.Run(name, word(l.energised()), figures, meant));
        lit.addAll(keys.of(simulation.path(state, name)));
      }
    }
    List<String> closed =
        result.lit()
            ? state.closes().stream()
                .filter(c -> c.under(installation.plan().settings()))
                .map(Control.Closing::terminal)
                .toList()
            : List.of();
    return new Checked.State(
        state.name(),
        state.call().words(),
        closed,
        !result.lit(),
        List.copyOf(loads),
        troubles(result),
        Set.copyOf(lit));
  }

  private static String word(Energised energised) {
    return switch (energised) {
      case ON -> "runs";
      case DOUBTFUL -> "may not pull in";
      case CHATTERS -> "chatters";
      case OFF -> "stays in if it was in";
    };
  }

  private static List<String> troubles(StateResult result) {
    List<String> troubles = new ArrayList<>();
    for (StateResult.FuseResult fuse : result.fuses()) {
      if (fuse.opens().possible()) {
        troubles.add(
            String.format(Locale.ROOT, "%s carries %.1f A: it ", fuse.name(), fuse.amps())
                + fuse.opens().words());
      }
    }
    for (StateResult.TransformerResult t : result.transformers()) {
      if (t.overloaded()) {
        troubles.add(
            String.format(
                Locale.ROOT,
                "%s overloaded, %.1f A of %.1f A",
                t.transformer().name(),
                t.amps(),
                t.transformer().ratedAmps()));
      }
    }
    return List.copyOf(troubles);
  }
}
