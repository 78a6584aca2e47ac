package bellwire.simbench.cable;

import bellwire.simbench.circuit.CapacitanceMatrix;
import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.ConductanceGraph;
import bellwire.simbench.circuit.LinearSystem;
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
  private static final int EPOCH_CACHE_LIMIT = 4;

  private record Key(int epoch, BoardCircuit.Switches switches) {}

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
  private final Map<Integer, ConductanceGraph> reduced = bounded(EPOCH_CACHE_LIMIT);
  private final Map<Key, LinearSystem> systems = bounded(CACHE_LIMIT);

  Topologies(Bench bench, Draws draws, Epoch first) {
    Tones tones = new Tones(bench, draws);
    omegas = tones.omegas();
    board = new BoardCircuit(bench, draws);
    cable = new CableCircuit(bench, draws, nodes, tones);
    CapacitanceMatrix capacitance = new CapacitanceMatrix(nodes.count());
    cable.add(capacitance, first);
    board.addFixed(capacitance, cable.metalChargeNode());
    dynamic = capacitance.dynamicNodes();
    cholesky = capacitance.cholesky();
    IntStream terminals = IntStream.range(0, Nodes.PORTS);
    kept = IntStream.concat(terminals, Arrays.stream(dynamic)).distinct().sorted().toArray();
    outer =
        IntStream.range(0, nodes.count())
            .filter(n -> n < Nodes.PORTS || n >= Nodes.EARTH)
            .toArray();
    all =
        IntStream.concat(Arrays.stream(kept), IntStream.range(Nodes.PORTS, Nodes.EARTH)).toArray();
    observed =
        IntStream.concat(IntStream.range(0, Nodes.PORTS), IntStream.of(Nodes.DRIVE, Nodes.RETURN))
            .toArray();
  }

  BoardCircuit board() {
    return board;
  }

  CableCircuit cable() {
    return cable;
  }

  /** Number of lasting dynamic nodes; the return bus may follow as one more. */
  int lastingNodes() {
    return dynamic.length;
  }

  /** Node numbers of a state's entries. */
  int[] stateNodes(BoardCircuit.Switches switches) {
    if (!board.stage(switches.chain())) {
      return dynamic.clone();
    }
    int[] withReturn = Arrays.copyOf(dynamic, dynamic.length + 1);
    withReturn[dynamic.length] = Nodes.RETURN;
    return withReturn;
  }

  LinearSystem system(Epoch epoch, BoardCircuit.Switches switches) {
    Key key = new Key(epoch.index(), switches);
    LinearSystem system = systems.get(key);
    if (system == null) {
      system = solve(epoch, switches);
      systems.put(key, system);
    }
    return system;
  }

  /** Everything, unreduced, element by element. */
  Circuit circuit(Epoch epoch, BoardCircuit.Switches switches) {
    Circuit circuit = new Circuit(nodes.names(), omegas);
    cable.add(circuit, epoch);
    board.addFixed(circuit, cable.metalChargeNode());
    board.addSwitched(circuit, switches);
    return circuit;
  }

  private LinearSystem solve(Epoch epoch, BoardCircuit.Switches switches) {
    ConductanceGraph graph = new ConductanceGraph(all, nodes.count(), omegas);
    ConductanceGraph outside = reduced.get(epoch.index());
    if (outside == null) {
      outside = reduce(epoch);
      reduced.put(epoch.index(), outside);
    }
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
    return new LinearSystem(graph, observedMark, state, factor, observed, nodes.count(), omegas);
  }

  private ConductanceGraph reduce(Epoch epoch) {
    ConductanceGraph graph = new ConductanceGraph(outer, nodes.count(), omegas);
    cable.add(graph, epoch);
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
