package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * Small replacements planned by the search, and by going through every landing of the sound
 * conductors, free ends included, with every jumper and setting: none with fewer moves passes the
 * check, none with as many moves and fewer changes does, and where the search has no plan there is
 * none.
 */
class ExhaustivePlanTest {
  private static final int PLANS = Integer.getInteger("bellwire.plans", 21);
  private static final int FIRST = Integer.getInteger("bellwire.seed", 1);

  /** One in so many that run the wrong loads is checked in full all the same. */
  private static final int SAMPLED = 40;

  /** Letters of an old control that mean the same on a new one without them. */
  private static final Map<String, Set<String>> SAME =
      Map.of("R", Set.of("RC", "RH"), "O", Set.of("O/B"), "B", Set.of("O/B"));

  private record Option(Landed landed, int moves) {}

  private long gone;
  private long checks;

  @Test
  void nothingWithFewerMovesPassesTheCheck() {
    int plans = 0;
    int most = 0;
    for (int k = 0; k < PLANS; k++) {
      long seed = FIRST + k;
      Replacement job = SmallReplacement.draw(seed);
      Proposal proposal = Planner.plan(job, Planner.Progress.NONE);
      assertThat(proposal.proved()).as("seed %d", seed).isTrue();
      LandingPlan plan = proposal.plan();
      boolean all = plan == null;
      int moves = all ? Integer.MAX_VALUE : moves(job, plan);
      if (plan != null) {
        plans++;
        most = Math.max(most, moves);
        assertThat(proposal.moves()).as("seed %d", seed).hasSize(moves);
        assertThat(faults(job, plan)).as("seed %d", seed).isEmpty();
      }
      for (Scheme.Fittings fittings : fittings(job)) {
        boolean fewer = plan != null && fittings.changes() < changes(job, plan);
        everything(job, seed, fittings, all || fewer ? moves : moves - 1);
      }
    }
    System.out.printf(
        "seeds %d to %d: %d of %d can be landed, with up to %d moves; %d landings gone through, %d"
            + " checked in full%n",
        FIRST, FIRST + PLANS - 1, plans, PLANS, most, gone, checks);
    assertThat(plans).isBetween(1, PLANS - (PLANS > 20 ? 1 : 0));
  }

  private void everything(Replacement job, long seed, Scheme.Fittings fittings, int most) {
    List<List<Option>> options = new ArrayList<>();
    job.asFound().landed().forEach(was -> options.add(options(job, was)));
    extend(job, seed, fittings, options, most, new ArrayList<>(), new HashSet<>());
  }

  private void extend(
      Replacement job,
      long seed,
      Scheme.Fittings fittings,
      List<List<Option>> options,
      int left,
      List<Landed> landed,
      Set<List<String>> seen) {
    if (left < 0) {
      return;
    }
    if (landed.size() == options.size()) {
      if (seen.add(alike(landed))) {
        gone++;
        LandingPlan plan = new LandingPlan(landed, fittings.jumpers(), fittings.settings());
        boolean wrong = runsWrong(job, plan);
        if (!wrong || gone % SAMPLED == 0) {
          checks++;
          assertThat(faults(job, plan)).as("seed %d: %s", seed, plan).isNotEmpty();
        }
      }
      return;
    }
    for (Option option : options.get(landed.size())) {
      landed.add(option.landed());
      extend(job, seed, fittings, options, left - option.moves(), landed, seen);
      landed.remove(landed.size() - 1);
    }
  }

  /** Sound conductors are alike: only which terminals are joined tells landings apart. */
  private static List<String> alike(List<Landed> landed) {
    return landed.stream().map(l -> l.near() + ":" + l.far()).sorted().toList();
  }

  private static List<Option> options(Replacement job, Landed was) {
    List<Option> options = new ArrayList<>();
    if (unsound(job, was.conductor())) {
      Landed lifted = new Landed(was.conductor(), null, null);
      return List.of(new Option(lifted, moves(job, was, lifted)));
    }
    List<@Nullable String> near = new ArrayList<>(job.equipment().terminals());
    List<@Nullable String> far = new ArrayList<>(job.control().terminals());
    near.add(null);
    far.add(null);
    for (String n : near) {
      for (String f : far) {
        Landed now = new Landed(was.conductor(), n, f);
        options.add(new Option(now, moves(job, was, now)));
      }
    }
    options.sort(Comparator.comparingInt(Option::moves));
    return options;
  }

  private static boolean unsound(Replacement job, String conductor) {
    return job.cable().conductor(conductor).broken()
        || job.cable().bridges().stream()
            .anyMatch(b -> b.a().equals(conductor) || conductor.equals(b.b()));
  }

  private static int moves(Replacement job, LandingPlan plan) {
    int sum = 0;
    for (int c = 0; c < plan.landed().size(); c++) {
      sum += moves(job, job.asFound().landed().get(c), plan.landed().get(c));
    }
    return sum;
  }

  private static int moves(Replacement job, Landed was, Landed now) {
    String near = was.near();
    int moves = near == null ? (now.near() == null ? 0 : 1) : near.equals(now.near()) ? 0 : 1;
    String old = was.far();
    String far = now.far();
    if (old == null || far == null) {
      return moves + (old == null && far == null ? 0 : 1);
    }
    boolean stays =
        old.equals(far)
            || !job.control().terminals().contains(old)
                && SAME.getOrDefault(old, Set.of()).contains(far);
    return moves + (stays ? 0 : 1);
  }

  private static int changes(Replacement job, LandingPlan plan) {
    int changes = plan.jumpers().size();
    for (Control.Setting setting : job.control().settings()) {
      changes += setting.choices().get(0).equals(plan.settings().get(setting.name())) ? 0 : 1;
    }
    return changes;
  }

  private static List<Scheme.Fittings> fittings(Replacement job) {
    List<Scheme.Fittings> all = new ArrayList<>();
    List<Set<Control.Jumper>> jumpers = new ArrayList<>(List.of(Set.of()));
    job.control().jumpers().forEach(j -> jumpers.add(Set.of(j)));
    List<Map<String, String>> settings = new ArrayList<>();
    for (Control.Setting s : job.control().settings()) {
      s.choices().forEach(choice -> settings.add(Map.of(s.name(), choice)));
    }
    if (settings.isEmpty()) {
      settings.add(Map.of());
    }
    for (Set<Control.Jumper> j : jumpers) {
      for (Map<String, String> s : settings) {
        LandingPlan plan = new LandingPlan(List.of(), j, s);
        all.add(new Scheme.Fittings(j, s, changes(job, plan)));
      }
    }
    return all;
  }

  private static List<Found> faults(Replacement job, LandingPlan plan) {
    return LandingCheck.check(installation(job, plan)).stream().filter(f -> !f.notice()).toList();
  }

  private static Installation installation(Replacement job, LandingPlan plan) {
    return new Installation(job.equipment(), job.control(), job.cable(), plan);
  }

  /** A quick look before the check: a call that does not run what it must, or runs another. */
  private static boolean runsWrong(Replacement job, LandingPlan plan) {
    Simulation simulation = new Simulation(installation(job, plan));
    for (Control.State state : job.control().states()) {
      Wanted wanted = job.equipment().wantedOn(state.call());
      for (StateResult.LoadResult l : simulation.state(state).loads()) {
        boolean on = l.energised() == StateResult.Energised.ON;
        boolean must = wanted.must().contains(l.load().name());
        boolean may = must || wanted.may().contains(l.load().name());
        if (must && !on || on && !may && l.load().role() != Load.Role.NONE) {
          return true;
        }
      }
    }
    return false;
  }
}
