package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Writes a drawn circuit as SPICE text, from what its parameters mean and not from any matrix: for
 * every reading and either direction of the current a circuit of its own, 1 A into the driven
 * terminal, the other returned through relay and switch and the reference.
 */
final class CircuitNetlist {
  private final RandomCircuit circuit;
  private final StringBuilder text;
  private final String name;
  private int count;

  /** What a conductor's parameters are in a drawn point, in the order the model adds them. */
  private static final class Wire {
    double deviation;
    double clampOhms;
    final double[] contactOhms = {Double.NaN, Double.NaN, Double.NaN};
    final double[] armDeviation = {0, 0, 0};
    double jointOhms;
  }

  private final Map<Integer, Wire> wires = new HashMap<>();
  private double clipOhms = Double.NaN;
  private final List<Double> places = new ArrayList<>();
  private final List<Double> bridgeOhms = new ArrayList<>();

  CircuitNetlist(RandomCircuit circuit, String name, StringBuilder text) {
    this.circuit = circuit;
    this.name = name;
    this.text = text;
    unpack();
  }

  private void unpack() {
    double[] at = circuit.point;
    Supposition supposed = circuit.supposed;
    int i = 1;
    for (int port : circuit.group) {
      Wire wire = new Wire();
      wire.deviation = at[i++];
      wire.clampOhms = at[i++];
      for (int s = 1; s < 3; s++) {
        if (!supposed.brokenBeyond().contains(port)) {
          wire.contactOhms[s] = at[i++];
          wire.armDeviation[s] = s == 1 ? at[i++] : 0;
        }
      }
      wires.put(port, wire);
    }
    if (supposed.bridges().stream().anyMatch(p -> p.b() == circuit.metal)) {
      clipOhms = at[i++];
    }
    for (int b = 0; b < supposed.bridges().size(); b++) {
      places.add(at[i++]);
      bridgeOhms.add(Math.exp(at[i++]));
    }
    for (int port : circuit.group) {
      if (supposed.jointsAhead().contains(port) || supposed.jointsBeyond().contains(port)) {
        wire(port).jointOhms = Math.exp(at[i++]);
      }
    }
    if (i != at.length) {
      throw new IllegalStateException("parameters=" + at.length + " known=" + i);
    }
  }

  private Wire wire(int port) {
    Wire wire = wires.get(port);
    if (wire == null) {
      throw new IllegalArgumentException("port=" + port);
    }
    return wire;
  }

  /** Writes both directions of reading k. */
  void write(int k) {
    Ratio ratio = circuit.ratios.get(k);
    direction(prefix(k, true), ratio, ratio.a(), ratio.b());
    direction(prefix(k, false), ratio, ratio.b(), ratio.a());
  }

  /** The sum of both directions' currents through the reference, ampere. */
  double amps(int k, Map<String, Double> volts) {
    return (at(volts, prefix(k, true) + "ret") + at(volts, prefix(k, false) + "ret"))
        / RandomCircuit.REFERENCE_OHMS;
  }

  /** Theory (3). */
  double ohms(int k, Map<String, Double> volts) {
    Ratio ratio = circuit.ratios.get(k);
    String f = prefix(k, true);
    String b = prefix(k, false);
    double forward = at(volts, f + "t" + ratio.p()) - at(volts, f + "t" + ratio.q());
    double back = at(volts, b + "t" + ratio.p()) - at(volts, b + "t" + ratio.q());
    return (forward - back) / amps(k, volts);
  }

  private static double at(Map<String, Double> volts, String node) {
    Double v = volts.get(node);
    if (v == null) {
      throw new IllegalArgumentException("node=" + node);
    }
    return v;
  }

  private String prefix(int k, boolean forward) {
    return name + "r" + k + (forward ? "f" : "b");
  }

  private void resistor(String x, String y, double ohms) {
    text.append("R").append(name).append("x").append(count++);
    text.append(' ').append(x).append(' ').append(y).append(' ').append(ohms).append('\n');
  }

  private void direction(String pre, Ratio ratio, int driven, int returned) {
    text.append("I")
        .append(pre)
        .append(" 0 ")
        .append(pre)
        .append("t")
        .append(driven)
        .append(" 1\n");
    resistor(pre + "t" + returned, pre + "ret", RandomCircuit.PATH_OHMS);
    resistor(pre + "ret", "0", RandomCircuit.REFERENCE_OHMS);
    int ports = circuit.setting.ports();
    for (int port = 0; port < ports; port++) {
      boolean held = ratio.held().get(port);
      double load = held ? RandomCircuit.PATH_OHMS : RandomCircuit.DIVIDER_OHMS;
      resistor(pre + "t" + port, "0", load);
      for (int other = port + 1; other < ports; other++) {
        if (circuit.background[port][other] > 0) {
          resistor(pre + "t" + port, pre + "t" + other, 1 / circuit.background[port][other]);
        }
      }
    }
    resistor(pre + "star", "0", 1e12);
    double[] arms = circuit.stages.get(ratio.stage()).arms();
    for (int port = 0; port < arms.length; port++) {
      if (!circuit.group.contains(port) && !Double.isNaN(arms[port])) {
        resistor(pre + "t" + port, pre + "star", arms[port]);
      }
    }
    circuit.group.forEach(port -> conductor(pre, port, ratio.stage()));
    for (int b = 0; b < places.size(); b++) {
      Pair pair = circuit.supposed.bridges().get(b);
      resistor(end(pre, pair.a(), b), end(pre, pair.b(), b), bridgeOhms.get(b));
    }
    if (!Double.isNaN(clipOhms)) {
      resistor(pre + "t" + circuit.metal, pre + "metal", clipOhms);
      resistor(pre + "metal", "0", 1e13);
    }
  }

  private String end(String pre, int port, int bridge) {
    return port == circuit.metal ? pre + "metal" : pre + "b" + bridge + "of" + port;
  }

  /** From the terminal past every bridge to the plug. */
  private void conductor(String pre, int port, int stage) {
    Supposition supposed = circuit.supposed;
    Wire wire = wire(port);
    double run = circuit.point[0] * (1 + wire.deviation);
    List<Integer> own = new ArrayList<>();
    for (int b = 0; b < places.size(); b++) {
      Pair pair = supposed.bridges().get(b);
      if (pair.a() == port || pair.b() == port) {
        own.add(b);
        resistor(end(pre, port, b), "0", 1e13);
      }
    }
    own.sort(Comparator.comparingDouble(places::get));
    String node = pre + "t" + port;
    double at = 0;
    double more = wire.clampOhms + (supposed.jointsAhead().contains(port) ? wire.jointOhms : 0);
    boolean cut = supposed.brokenAhead().contains(port);
    for (int b : own) {
      if (!cut) {
        resistor(node, end(pre, port, b), more + run * (places.get(b) - at));
      }
      cut = false;
      more = 0;
      at = places.get(b);
      node = end(pre, port, b);
    }
    if (stage > 0 && !supposed.brokenBeyond().contains(port)) {
      double arm = 0;
      if (stage == 1) {
        int position = supposed.positions().getOrDefault(port, -1);
        arm = circuit.setting.armOhms()[position] * (1 + wire.armDeviation[1]);
      }
      more += supposed.jointsBeyond().contains(port) ? wire.jointOhms : 0;
      resistor(node, pre + "star", more + run * (1 - at) + wire.contactOhms[stage] + arm);
    }
  }
}
