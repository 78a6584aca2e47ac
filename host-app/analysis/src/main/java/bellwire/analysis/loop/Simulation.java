package bellwire.analysis.loop;

import bellwire.analysis.loop.StateResult.FuseResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What every state of an installation really does, theory (70) to (79). Not for several threads.
 */
public final class Simulation {
  private final Installation installation;
  private final EquipmentLayout equipment;
  private final LoopCircuit circuit;
  private final FixPoint fixPoint;
  private final Map<Long, Course> courses;

  /** By the fuse that has opened. */
  private final Map<String, Simulation> without = new HashMap<>();

  public Simulation(Installation installation) {
    this(installation, new EquipmentLayout(installation.equipment()));
  }

  private Simulation(Installation installation, EquipmentLayout equipment) {
    this.installation = installation;
    this.equipment = equipment;
    circuit = new LoopCircuit(installation, equipment);
    fixPoint = new FixPoint(circuit, installation);
    courses = new HashMap<>();
  }

  /** Where it differs in the control's settings only. */
  private Simulation(Installation installation, Simulation like) {
    this.installation = installation;
    equipment = like.equipment;
    circuit = like.circuit;
    fixPoint = like.fixPoint;
    courses = like.courses;
  }

  /** Of another installation, sharing what does not differ: the quicker the less does. */
  public Simulation of(Installation other) {
    LandingPlan plan = other.plan();
    boolean sameCircuit =
        other.equipment() == installation.equipment()
            && other.control() == installation.control()
            && other.cable() == installation.cable()
            && plan.landed().equals(installation.plan().landed())
            && plan.jumpers().equals(installation.plan().jumpers())
            && other.open().equals(installation.open());
    if (sameCircuit) {
      return new Simulation(other, this);
    }
    return other.equipment() == installation.equipment()
        ? new Simulation(other, equipment)
        : new Simulation(other);
  }

  /** Every state of the control, in its order. */
  public List<StateResult> states() {
    return installation.control().states().stream().map(this::state).toList();
  }

  /** Before any fuse has opened. */
  public StateResult state(Control.State state) {
    return course(state).of(state);
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
    return from < 0 || to < 0 ? 0 : after.course(state).most(s -> s.volts(from, to));
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
    return new CurrentPath(circuit, course(state).fullest(branch)).through(branch);
  }

  /** Every pair of transformers, and how they are joined in a state. */
  public List<Supplies> supplies(Control.State state) {
    return Supplies.all(circuit, installation, course(state).condition());
  }

  /**
   * All that joins two points with no load between. Where a state is not settled, at the time when
   * the transformers give the most.
   *
   * @param mostTouchOhms a touch of more is none
   */
  public List<Joint> joints(Control.State state, double mostTouchOhms) {
    return circuit.joints(course(state).condition(), mostTouchOhms);
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
    return of(installation.withOpen(open));
  }

  /** Of the fuses that open for certain, the one with the shortest limit. */
  private Optional<String> opensFirst(Control.State state) {
    return course(state).fuses().stream()
        .filter(f -> f.opens().certain())
        .min(
            Comparator.comparingDouble((FuseResult f) -> f.opens().latestSeconds())
                .thenComparingDouble(f -> f.ratedAmps() / f.amps()))
        .map(FuseResult::name);
  }

  private Course course(Control.State state) {
    long closes = closes(state);
    Course known = courses.get(closes);
    if (known == null) {
      known = run(closes);
      courses.put(closes, known);
    }
    return known;
  }

  private Course run(long closes) {
    return new Course(
        circuit,
        installation.equipment(),
        fixPoint.fromRest(closes),
        () -> fixPoint.fromAllPulledIn(closes));
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
}
