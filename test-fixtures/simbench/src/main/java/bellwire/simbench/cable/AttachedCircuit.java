package bellwire.simbench.cable;

import bellwire.simbench.circuit.Drive;
import bellwire.simbench.circuit.Inductor;
import bellwire.simbench.circuit.Netlist;
import bellwire.simbench.file.Bench;
import java.util.ArrayList;
import java.util.List;

/**
 * What is attached to the cable, as a circuit. Its capacitors stay for ever, so that one
 * capacitance matrix serves all epochs; what comes and goes is the contact that joins them.
 */
final class AttachedCircuit {
  /** Of a lead at a conductor's end, where it carries no capacitance of its own. */
  private static final double LEAD_FARADS = 10e-12;

  private static final double WINDING_FARADS = 50e-12;
  private static final double INNER_FARADS = 1e-12;

  /**
   * A diode.
   *
   * @param item its number among what is attached
   * @param anode node
   * @param cathode node
   * @param volts forward voltage
   */
  record Diode(int item, int anode, int cathode, double volts) {}

  private final Bench bench;
  private final Conductors conductors;
  private final int metal;
  private final int[][] inner;
  private final List<Diode> diodes = new ArrayList<>();

  AttachedCircuit(Bench bench, Conductors conductors, Nodes nodes, int metal) {
    this.bench = bench;
    this.conductors = conductors;
    this.metal = metal;
    inner = new int[bench.attached().size()][];
    for (int i = 0; i < inner.length; i++) {
      Bench.Attached attached = bench.attached().get(i);
      int count =
          switch (attached.kind()) {
            case CAPACITOR -> 1;
            case CABLE -> attached.ports().size();
            default -> 0;
          };
      inner[i] = new int[count];
      for (int k = 0; k < count; k++) {
        inner[i][k] = nodes.add("a" + (i + 1) + "x" + (k + 1));
      }
      if (attached.kind() == Bench.AttachedKind.DIODE) {
        int[] taps = conductors.tapNodes(i);
        diodes.add(new Diode(i, taps[0], taps[1], attached.volts()));
      }
    }
  }

  List<Diode> diodes() {
    return diodes;
  }

  /** In the order of the bench file; the same number of them in every epoch. */
  List<Inductor> inductors(Epoch epoch) {
    List<Inductor> inductors = new ArrayList<>();
    for (int i = 0; i < bench.attached().size(); i++) {
      Bench.Attached attached = bench.attached().get(i);
      if (attached.henries() > 0) {
        int[] taps = conductors.tapNodes(i);
        inductors.add(
            new Inductor(
                taps[0], taps[1], attached.ohms(), attached.henries(), epoch.on(attached)));
      }
    }
    return inductors;
  }

  /**
   * @param conducting bit d: diode d conducts
   */
  void add(Netlist net, Epoch epoch, int conducting) {
    inductors(epoch).stream().filter(Inductor::joined).forEach(net::inductor);
    for (int d = 0; d < diodes.size(); d++) {
      Diode diode = diodes.get(d);
      Bench.Attached attached = bench.attached().get(diode.item());
      if (epoch.on(attached)) {
        net.diode(
            diode.anode(),
            diode.cathode(),
            attached.volts(),
            attached.ohms(),
            (conducting & 1 << d) != 0);
      }
    }
    for (int i = 0; i < bench.attached().size(); i++) {
      addLeads(net, i);
      addRest(net, i, epoch.on(bench.attached().get(i)));
    }
  }

  private void addLeads(Netlist net, int item) {
    for (int node : conductors.tapNodes(item)) {
      if (node != metal && node >= Nodes.PORTS) {
        net.capacitor(node, Nodes.EARTH, LEAD_FARADS);
      }
    }
  }

  private void addRest(Netlist net, int item, boolean on) {
    Bench.Attached attached = bench.attached().get(item);
    int[] taps = conductors.tapNodes(item);
    double ohms = Math.max(attached.ohms(), CableCircuit.LEAST_OHMS);
    switch (attached.kind()) {
      case COIL, SECONDARY -> {
        net.capacitor(taps[0], taps[1], WINDING_FARADS);
        if (on && attached.coreOhms() < Double.POSITIVE_INFINITY) {
          net.resistor(taps[0], taps[1], attached.coreOhms());
        }
      }
      case CAPACITOR -> {
        net.capacitor(inner[item][0], taps[1], attached.farads());
        net.capacitor(inner[item][0], Nodes.EARTH, INNER_FARADS);
        if (on) {
          net.resistor(taps[0], inner[item][0], ohms);
        }
      }
      case BATTERY -> {
        if (on) {
          net.emf(taps[0], taps[1], ohms, Drive.constant(attached.volts()));
        }
      }
      case JUMPER -> {
        if (on) {
          net.resistor(taps[0], taps[1], ohms);
        }
      }
      case CABLE -> addCable(net, item, on);
      case DIODE -> {}
    }
  }

  /** Its conductors have the first cable's capacitances, without a spread. */
  private void addCable(Netlist net, int item, boolean on) {
    Bench.Attached attached = bench.attached().get(item);
    int[] taps = conductors.tapNodes(item);
    double metres = attached.lengthMetres();
    int others = Math.max(1, taps.length - 1);
    for (int k = 0; k < taps.length; k++) {
      net.capacitor(
          inner[item][k], metal, INNER_FARADS + bench.cable().toMetalFaradsPerMetre() * metres);
      for (int j = 0; j < k; j++) {
        net.capacitor(
            inner[item][k], inner[item][j], bench.cable().faradsPerMetre() / others * metres);
      }
      if (on) {
        net.resistor(taps[k], inner[item][k], attached.ohms());
      }
    }
  }
}
