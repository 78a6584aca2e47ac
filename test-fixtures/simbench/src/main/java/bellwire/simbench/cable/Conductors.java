package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import bellwire.simbench.file.Intermittent;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The cable's conductors cut into segments at their joints, opens and bridges, with the nodes
 * between.
 */
final class Conductors {
  /** Conductivity of annealed copper at 20 °C, 58 MS/m, and its coefficient: IEC publication 28. */
  static final double SIEMENS_PER_METRE = 58e6;

  static final double PER_KELVIN = 0.00393;

  /**
   * One length of wire between two nodes.
   *
   * @param from fraction of the cable's length, near side
   * @param chargeNode where its capacitance sits: its near side
   */
  record Segment(
      int conductor, double from, double to, int near, int far, int chargeNode, double ohms) {
    double length() {
      return to - from;
    }
  }

  record Series(int a, int b, double ohms) {}

  /**
   * @param item number of the bridge or of what is attached
   */
  private record Place(double at, int kind, double ohms, int item, int side) {}

  private static final int JOINT = 0;
  private static final int OPEN = 1;
  private static final int BRIDGE = 2;
  private static final int TAP = 3;
  private static final int WANDER = 4;
  private static final int OPENING = 5;
  private static final int TOUCH = 6;

  /** A clamp worse than this keeps the terminal's charge apart from the conductor's. */
  private static final double GOOD_CLAMP_OHMS = 10;

  private final Bench bench;
  private final Nodes nodes;
  private final int metal;
  private final List<Segment> segments = new ArrayList<>();
  private final List<Series> series = new ArrayList<>();
  private final int[] nearNodes;
  private final int[] farNodes;
  private final double[] copperOhms;
  private final int[][] bridgeNodes;
  private final int[][] tapNodes;
  private final int[][] wanderNodes;
  private final int[][] intermittentNodes;

  /**
   * @param metal node that bridges to M lead to
   */
  Conductors(Bench bench, Draws draws, Nodes nodes, int metal) {
    this.bench = bench;
    this.nodes = nodes;
    this.metal = metal;
    List<Bench.Conductor> list = bench.cable().conductors();
    nearNodes = new int[list.size()];
    farNodes = new int[list.size()];
    copperOhms = new double[list.size()];
    bridgeNodes = new int[bench.bridges().size()][2];
    wanderNodes = new int[bench.wanders().size()][2];
    intermittentNodes = new int[bench.intermittents().size()][2];
    tapNodes = new int[bench.attached().size()][];
    for (int a = 0; a < tapNodes.length; a++) {
      List<Integer> ports = bench.attached().get(a).ports();
      boolean atTerminals = bench.attached().get(a).at().isEmpty();
      tapNodes[a] =
          ports.stream()
              .mapToInt(p -> p == Nodes.METAL_PORT ? metal : atTerminals ? Nodes.terminal(p) : -1)
              .toArray();
    }
    for (int c = 0; c < list.size(); c++) {
      double spread = draws.symmetric(bench.spread().resistance(), "conductor", list.get(c).port());
      copperOhms[c] = nominalOhms(bench.cable()) * (1 + spread);
      cut(c, list.get(c).port());
    }
    for (int b = 0; b < bridgeNodes.length; b++) {
      Bench.Bridge bridge = bench.bridges().get(b);
      series.add(new Series(bridgeNodes[b][0], bridgeNodes[b][1], bridge.ohms()));
    }
  }

  /** A conductor's resistance by gauge, length and temperature. */
  static double nominalOhms(Bench.Cable cable) {
    double at20 = cable.lengthMetres() / (SIEMENS_PER_METRE * cable.squareMillimetres() * 1e-6);
    return at20 * (1 + PER_KELVIN * (cable.celsius() - 20));
  }

  private void cut(int c, int port) {
    int node = nodes.add("near" + (port + 1));
    nearNodes[c] = node;
    boolean goodClamp =
        bench.contacts().stream()
            .noneMatch(
                f -> f.port() == port && f.end() == Bench.End.NEAR && f.ohms() > GOOD_CLAMP_OHMS);
    int charge = goodClamp ? Nodes.terminal(port) : node;
    double at = 0;
    int count = 0;
    for (Place place : places(port)) {
      count++;
      if (place.at() > at) {
        int next = nodes.add("c" + (port + 1) + "x" + count);
        wire(c, at, place.at(), node, next, charge);
        node = next;
        charge = next;
        at = place.at();
      }
      if (place.kind() == BRIDGE) {
        bridgeNodes[place.item()][place.side()] = node;
      } else if (place.kind() == TAP) {
        tapNodes[place.item()][place.side()] = node;
      } else if (place.kind() == TOUCH) {
        intermittentNodes[place.item()][place.side()] = node;
      } else {
        int next = nodes.add("c" + (port + 1) + "y" + count);
        if (place.kind() == JOINT) {
          series.add(new Series(node, next, place.ohms()));
        } else if (place.kind() == WANDER) {
          wanderNodes[place.item()] = new int[] {node, next};
        } else if (place.kind() == OPENING) {
          intermittentNodes[place.item()] = new int[] {node, next};
        }
        node = next;
        charge = next;
      }
    }
    if (at < 1) {
      int end = nodes.add("far" + (port + 1));
      wire(c, at, 1, node, end, charge);
      node = end;
    }
    farNodes[c] = node;
  }

  private void wire(int c, double from, double to, int near, int far, int charge) {
    segments.add(new Segment(c, from, to, near, far, charge, copperOhms[c] * (to - from)));
  }

  private List<Place> places(int port) {
    List<Place> places = new ArrayList<>();
    bench.joints().stream()
        .filter(j -> j.port() == port)
        .forEach(j -> places.add(new Place(j.at(), JOINT, j.ohms(), 0, 0)));
    bench.opens().stream()
        .filter(o -> o.port() == port)
        .forEach(o -> places.add(new Place(o.at(), OPEN, 0, 0, 0)));
    for (int b = 0; b < bench.bridges().size(); b++) {
      Bench.Bridge bridge = bench.bridges().get(b);
      int[] ports = {bridge.portA(), bridge.portB()};
      for (int side = 0; side < 2; side++) {
        if (ports[side] == port) {
          places.add(new Place(bridge.at(), BRIDGE, bridge.ohms(), b, side));
        } else if (ports[side] == Nodes.METAL_PORT) {
          bridgeNodes[b][side] = metal;
        }
      }
    }
    for (int a = 0; a < tapNodes.length; a++) {
      Bench.Attached attached = bench.attached().get(a);
      int side = attached.ports().indexOf(port);
      if (side >= 0 && attached.at().isPresent()) {
        places.add(new Place(attached.at().getAsDouble(), TAP, 0, a, side));
      }
    }
    addComing(places, port);
    places.sort(Comparator.comparingDouble(Place::at));
    return places;
  }

  private void addComing(List<Place> places, int port) {
    for (int w = 0; w < wanderNodes.length; w++) {
      if (bench.wanders().get(w).port() == port) {
        places.add(new Place(bench.wanders().get(w).at(), WANDER, 0, w, 0));
      }
    }
    for (int i = 0; i < intermittentNodes.length; i++) {
      Intermittent fault = bench.intermittents().get(i);
      if (fault.kind() == Intermittent.Kind.OPENING) {
        if (fault.portA() == port) {
          places.add(new Place(fault.at(), OPENING, 0, i, 0));
        }
        continue;
      }
      int[] ports = {fault.portA(), fault.portB()};
      for (int side = 0; side < 2; side++) {
        if (ports[side] == port) {
          places.add(new Place(fault.at(), TOUCH, 0, i, side));
        } else if (ports[side] == Nodes.METAL_PORT) {
          intermittentNodes[i][side] = metal;
        }
      }
    }
  }

  /** The two ends of a wandering joint. */
  int[] wanderNodes(int wander) {
    return wanderNodes[wander];
  }

  /** The two sides of an intermittent opening, or what touches in a touch. */
  int[] intermittentNodes(int entry) {
    return intermittentNodes[entry];
  }

  /** Where something attached is connected, one node for each of its ports. */
  int[] tapNodes(int attached) {
    return tapNodes[attached];
  }

  List<Segment> segments() {
    return segments;
  }

  /** Joints and bridges. */
  List<Series> series() {
    return series;
  }

  int near(int conductor) {
    return nearNodes[conductor];
  }

  int far(int conductor) {
    return farNodes[conductor];
  }

  double copperOhms(int conductor) {
    return copperOhms[conductor];
  }
}
