package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.loop.FixPoint.Phase;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.FuseResult;
import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.StateResult.TransformerResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToDoubleFunction;

/**
 * What every state of an installation really does, theory (70) to (79). Not for several threads.
 */
public final class Simulation {
  /**
   * What a state comes to; states that close the same contacts share it.
   *
   * @param held the loads that stay pulled in
   */
  private record Course(List<Phase> phases, Condition held) {}

  private final Installation installation;
  private final LoopCircuit circuit;
  private final FixPoint fixPoint;
  private final List<Load> loads;
  private final Map<Long, Course> courses = new HashMap<>();

  /** By the fuse that has opened. */
  private final Map<String, Simulation> without = new HashMap<>();

  public Simulation(Installation installation) {
    this.installation = installation;
    circuit = new LoopCircuit(installation);
    fixPoint = new FixPoint(circuit, installation);
    loads = installation.equipment().all(Load.class);
  }

  /** Every state of the control, in its order. */
  public List<StateResult> states() {
    return installation.control().states().stream().map(this::state).toList();
  }

  /** Before any fuse has opened. */
  public StateResult state(Control.State state) {
    Course course = course(state);
    List<Phase> phases = course.phases();
    return new StateResult(
        state,
        phases.stream().anyMatch(Phase::lit),
        phases.stream().mapToDouble(Phase::controlVolts).min().orElse(Double.NaN),
        loadResults(course),
        fuseResults(phases),
        transformerResults(phases),
        phases.size() == 1);
  }

  /** The same once every fuse that opens for certain has opened, one after another. */
  public StateResult afterFuses(Control.State state) {
    return afterOpening(state, new ArrayList<>()).state(state);
  }

  /** The fuses that open for certain, in that order. */
  public List<String> opening(Control.State state) {
    List<String> names = new ArrayList<>();
    afterOpening(state, names);
    return names;
  }

  /**
   * What a meter reads between two points, once every fuse that opens for certain has opened.
   *
   * @param a as in the equipment's elements, {@link Point#near} or {@link Point#far}, or METAL
   * @return V rms, the most where not settled; 0 where nothing joins the two, or one of them has no
   *     copper
   */
  public double volts(Control.State state, Point a, Point b) {
    Simulation after = afterOpening(state, new ArrayList<>());
    int from = after.circuit.node(a);
    int to = after.circuit.node(b);
    return from < 0 || to < 0 ? 0 : most(after.course(state).phases(), s -> s.volts(from, to));
  }

  /**
   * The way of the current through an element of the equipment, before any fuse has opened: from a
   * transformer over terminals, conductors and contacts back to it, theory (78).
   *
   * @return names in order; empty where no current flows
   */
  public List<String> path(Control.State state, String element) {
    int branch = circuit.branch(element);
    if (branch < 0) {
      return List.of();
    }
    Solved solved = at(course(state).phases(), branch);
    return new CurrentPath(circuit, solved).through(branch);
  }

  /** Every pair of transformers, and how they are joined in a state. */
  public List<Supplies> supplies(Control.State state) {
    List<Phase> phases = course(state).phases();
    return Supplies.all(circuit, installation, phases.get(phases.size() - 1).condition());
  }

  /**
   * All that joins two points with no load between. Where a state is not settled, at the time when
   * the transformers give the most.
   *
   * @param mostTouchOhms a touch of more is none
   */
  public List<Joint> joints(Control.State state, double mostTouchOhms) {
    List<Integer> sources = new ArrayList<>();
    for (int branch : circuit.branchesOf(Branch.Kind.TRANSFORMER)) {
      sources.add(branch);
    }
    Condition condition =
        course(state).phases().stream()
            .max(
                Comparator.comparingDouble(
                    p -> sources.stream().mapToDouble(b -> p.solved().amps(b)).sum()))
            .orElseThrow()
            .condition();
    return circuit.joints(condition, mostTouchOhms);
  }

  private Simulation afterOpening(Control.State state, List<String> names) {
    Simulation now = this;
    Optional<String> first = now.opensFirst(state);
    while (first.isPresent()) {
      names.add(first.get());
      now = now.without.computeIfAbsent(first.get(), now::opened);
      first = now.opensFirst(state);
    }
    return now;
  }

  private Simulation opened(String fuse) {
    Set<String> open = new HashSet<>(installation.open());
    open.add(fuse);
    return new Simulation(installation.withOpen(open));
  }

  /** Of the fuses that open for certain, the one with the shortest limit. */
  private Optional<String> opensFirst(Control.State state) {
    return fuseResults(course(state).phases()).stream()
        .filter(f -> f.opens().certain())
        .min(
            Comparator.comparingDouble((FuseResult f) -> f.opens().latestSeconds())
                .thenComparingDouble(f -> f.ratedAmps() / f.amps()))
        .map(FuseResult::name);
  }

  private Course course(Control.State state) {
    return courses.computeIfAbsent(closes(state), this::run);
  }

  private Course run(long closes) {
    List<Phase> held = fixPoint.fromAllPulledIn(closes);
    long stay = held.stream().mapToLong(p -> p.condition().pulledIn()).reduce(-1L, (a, b) -> a & b);
    return new Course(fixPoint.fromRest(closes), new Condition(closes, stay));
  }

  private long closes(Control.State state) {
    long mask = 0;
    for (Control.Closing closing : state.closes()) {
      if (closing.under(installation.plan().settings())) {
        mask |= LoopCircuit.closing(installation.control().contacts(), closing.terminal());
      }
    }
    return mask;
  }

  private List<LoadResult> loadResults(Course course) {
    List<Phase> phases = course.phases();
    List<LoadResult> results = new ArrayList<>();
    for (int i = 0; i < loads.size(); i++) {
      Load load = loads.get(i);
      int number = i;
      int branch = circuit.branch(load.name());
      double volts = most(phases, s -> s.volts(branch));
      long times = phases.stream().filter(p -> p.condition().pulledIn(number)).count();
      Energised energised =
          times == phases.size()
              ? Energised.ON
              : times > 0
                  ? Energised.CHATTERS
                  : volts >= load.holdInVolts() ? Energised.DOUBTFUL : Energised.OFF;
      results.add(
          new LoadResult(
              load,
              energised,
              course.held().pulledIn(i),
              volts,
              most(phases, s -> s.amps(branch))));
    }
    return results;
  }

  private List<FuseResult> fuseResults(List<Phase> phases) {
    List<FuseResult> results = new ArrayList<>();
    for (Fuse f : installation.equipment().all(Fuse.class)) {
      results.add(fuseResult(f.name(), f.kind(), f.ratedAmps(), amps(phases, f.name())));
    }
    for (Transformer t : installation.equipment().all(Transformer.class)) {
      if (t.breakerAmps() > 0) {
        double amps = amps(phases, t.name());
        results.add(fuseResult(t.breakerName(), FuseKind.BREAKER, t.breakerAmps(), amps));
      }
    }
    return results;
  }

  private static FuseResult fuseResult(String name, FuseKind kind, double ratedAmps, double amps) {
    return new FuseResult(name, ratedAmps, amps, kind.opening(ratedAmps, amps));
  }

  private List<TransformerResult> transformerResults(List<Phase> phases) {
    return installation.equipment().all(Transformer.class).stream()
        .map(
            t -> {
              double amps = amps(phases, t.name());
              return new TransformerResult(t, amps, t.openVolts() * amps);
            })
        .toList();
  }

  private double amps(List<Phase> phases, String element) {
    int branch = circuit.branch(element);
    return branch < 0 ? 0 : most(phases, s -> s.amps(branch));
  }

  private static double most(List<Phase> phases, ToDoubleFunction<Solved> of) {
    return phases.stream().map(Phase::solved).mapToDouble(of).max().orElse(0);
  }

  /** The time at which a branch carries the most. */
  private static Solved at(List<Phase> phases, int branch) {
    return phases.stream()
        .map(Phase::solved)
        .max(Comparator.comparingDouble(s -> s.amps(branch)))
        .orElseThrow();
  }
}
