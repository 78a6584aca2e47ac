package bellwire.simbench.cable;

import bellwire.simbench.circuit.CapacitanceMatrix;
import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.ConductanceGraph;
import bellwire.simbench.circuit.InductiveSystem;
import bellwire.simbench.circuit.LinearSystem;
import bellwire.simbench.circuit.ModalSystem;
import bellwire.simbench.file.Bench;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * A bench's circuit in any of its switch states, solved once for each. The cable is reduced to the
 * terminals and the nodes with capacitance once an epoch; a switch state adds the board to that.
 */
final class Topologies {
  /** Observed nodes: the terminals by port, then these. */
  static final int OBSERVED_DRIVE = Nodes.PORTS;

  static final int OBSERVED_RETURN = Nodes.PORTS + 1;
  private static final int CACHE_LIMIT = 512;
  private static final int EPOCH_CACHE_LIMIT = 16;

  /** What is outside the terminals. */
  private record Outside(Epoch.Key epoch, int conducting) {}

  private record Key(Outside outside, BoardCircuit.Switches switches) {}

  private final Nodes nodes = new Nodes();
  private final BoardCircuit board;
  private final CableCircuit cable;
  private final double[] omegas;
  private final int[] dynamic;
  private final double[][] cholesky;
  private final int[] kept;
  private final int[] outer;
  private final int[] all;
  private final int[] observed;
  private final int inductors;
  private int wandered;
  private final Map<Outside, ConductanceGraph> reduced = bounded(EPOCH_CACHE_LIMIT);
  private final Map<Key, ModalSystem> systems = bounded(CACHE_LIMIT);

  Topologies(Bench bench, Draws draws, Epoch first) {
    Tones tones = new Tones(bench, draws);
    omegas = tones.omegas();
    board = new BoardCircuit(bench, draws);
    cable = new CableCircuit(bench, draws, nodes, tones);
    CapacitanceMatrix capacitance = new CapacitanceMatrix(nodes.count());
    cable.add(capacitance, first, 0);
    board.addFixed(capacitance, cable.metalChargeNode());
    dynamic = capacitance.dynamicNodes();
    inductors = cable.attached().inductors(first).size();
    cholesky = capacitance.cholesky();
    IntStream terminals = IntStream.range(0, Nodes.PORTS);
    kept = IntStream.concat(terminals, Arrays.stream(dynamic)).distinct().sorted().toArray();
    outer =
        IntStream.range(0, nodes.count())
            .filter(n -> n < Nodes.PORTS || n >= Nodes.EARTH)
            .toArray();
    all =
        IntStream.concat(Arrays.stream(kept), IntStream.range(Nodes.PORTS, Nodes.EARTH)).toArray();
    IntStream buses = IntStream.of(Nodes.DRIVE, Nodes.RETURN);
    IntStream diodes =
        cable.attached().diodes().stream().flatMapToInt(d -> IntStream.of(d.anode(), d.cathode()));
    observed =
        IntStream.concat(IntStream.range(0, Nodes.PORTS), IntStream.concat(buses, diodes))
            .toArray();
  }

  BoardCircuit board() {
    return board;
  }

  CableCircuit cable() {
    return cable;
  }

  /** Index of a diode's anode among the observed nodes; its cathode follows. */
  static int observedAnode(int diode) {
    return OBSERVED_RETURN + 1 + 2 * diode;
  }

  /** Number of inductors, whose currents end a state. */
  int inductors() {
    return inductors;
  }

  /** Number of lasting dynamic nodes; the return bus may follow as one more. */
  int lastingNodes() {
    return dynamic.length;
  }

  /** Node numbers of the voltages that begin a state. */
  int[] stateNodes(BoardCircuit.Switches switches) {
    if (!board.stage(switches.chain())) {
      return dynamic.clone();
    }
    int[] withReturn = Arrays.copyOf(dynamic, dynamic.length + 1);
    withReturn[dynamic.length] = Nodes.RETURN;
    return withReturn;
  }

  /**
   * @param conducting bit d: diode d conducts
   */
  ModalSystem system(Epoch epoch, BoardCircuit.Switches switches, int conducting) {
    if (epoch.key().wandered() != wandered) {
      wandered = epoch.key().wandered();
      reduced.clear(); // no joint comes back to where it was
      systems.clear();
    }
    Key key = new Key(new Outside(epoch.key(), conducting), switches);
    ModalSystem system = systems.get(key);
    if (system == null) {
      system = solve(epoch, switches, conducting);
      systems.put(key, system);
    }
    return system;
  }

  /** Everything, unreduced, element by element. */
  Circuit circuit(Epoch epoch, BoardCircuit.Switches switches) {
    Circuit circuit = new Circuit(nodes.names(), omegas);
    cable.add(circuit, epoch, 0);
    board.addFixed(circuit, cable.metalChargeNode());
    board.addSwitched(circuit, switches);
    return circuit;
  }

  private ModalSystem solve(Epoch epoch, BoardCircuit.Switches switches, int conducting) {
    ConductanceGraph graph = new ConductanceGraph(all, nodes.count(), omegas);
    ConductanceGraph outside =
        reduced.computeIfAbsent(
            new Outside(epoch.key(), conducting), k -> reduce(epoch, conducting));
    graph.adopt(outside);
    board.addSwitched(graph, switches);
    int[] state = stateNodes(switches);
    for (int p = 0; p < Nodes.PORTS; p++) {
      graph.eliminate(Nodes.inner(p));
    }
    int observedMark = graph.mark();
    for (int node : kept) {
      if (Arrays.binarySearch(dynamic, node) < 0) {
        graph.eliminate(node);
      }
    }
    graph.eliminate(Nodes.GUARD);
    if (!board.stage(switches.chain())) {
      graph.eliminate(Nodes.RETURN);
    }
    graph.eliminate(Nodes.DRIVE);
    double[][] factor = cholesky;
    if (state.length > dynamic.length) {
      int n = state.length;
      factor = new double[n][];
      for (int i = 0; i < n - 1; i++) {
        factor[i] = Arrays.copyOf(cholesky[i], n);
      }
      factor[n - 1] = new double[n];
      factor[n - 1][n - 1] = Math.sqrt(board.stageFarads(switches.chain()));
    }
    int limit = nodes.count();
    return inductors == 0
        ? new LinearSystem(graph, observedMark, state, factor, observed, limit, omegas)
        : new InductiveSystem(
            graph,
            observedMark,
            state,
            factor,
            cable.attached().inductors(epoch),
            observed,
            limit,
            omegas);
  }

  private ConductanceGraph reduce(Epoch epoch, int conducting) {
    ConductanceGraph graph = new ConductanceGraph(outer, nodes.count(), omegas);
    cable.add(graph, epoch, conducting);
    board.addFixed(graph, cable.metalChargeNode());
    for (int node : outer) {
      if (Arrays.binarySearch(kept, node) < 0) {
        graph.eliminate(node);
      }
    }
    return graph;
  }

  List<String> nodeNames() {
    return nodes.names();
  }

  private static <K, V> Map<K, V> bounded(int limit) {
    return new LinkedHashMap<>(16, 0.75f, true) {
      @Override
      protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
        return size() > limit;
      }
    };
  }
}
