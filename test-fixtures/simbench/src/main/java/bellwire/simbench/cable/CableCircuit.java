package bellwire.simbench.cable;

import bellwire.simbench.circuit.Drive;
import bellwire.simbench.circuit.Netlist;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.Intermittent;
import java.util.List;

/** The cable with its clamps, far end and surroundings as a circuit. */
final class CableCircuit {
  /** The least resistance of copper touching copper; where a bench says 0 ohm. */
  static final double LEAST_OHMS = 1e-4;

  /** Of two conductors that touch now and then. Common practice, no source. */
  static final double TOUCH_OHMS = 0.05;

  private final Bench bench;
  private final Draws draws;
  private final Tones tones;
  private final Conductors conductors;
  private final PlugArms arms;
  private final AttachedCircuit attached;
  private final int plugCommon;
  private final int firstTwist;
  private final int metal;

  CableCircuit(Bench bench, Draws draws, Nodes nodes, Tones tones) {
    this.bench = bench;
    this.draws = draws;
    this.tones = tones;
    metal = bench.metal().kind() == Bench.MetalKind.DRAIN ? nodes.add("drain") : Nodes.EARTH;
    conductors = new Conductors(bench, draws, nodes, metal);
    attached = new AttachedCircuit(bench, conductors, nodes, metal);
    arms = PlugArms.of(bench.plug(), draws);
    plugCommon = nodes.add("plug");
    int twists = bench.farEnd().stream().mapToInt(f -> f.ties().size()).max().orElse(0);
    firstTwist = nodes.count();
    for (int t = 0; t < twists; t++) {
      nodes.add("twist" + (t + 1));
    }
  }

  PlugArms arms() {
    return arms;
  }

  Conductors conductors() {
    return conductors;
  }

  AttachedCircuit attached() {
    return attached;
  }

  /** Where M's own charge sits: at what it is clipped to, if anything. */
  int metalChargeNode() {
    return bench.metal().clipped() ? metal : Nodes.terminal(Nodes.METAL_PORT);
  }

  /**
   * All of it; the capacitors are the same in every epoch.
   *
   * @param conducting bit d: diode d conducts
   */
  void add(Netlist net, Epoch epoch, int conducting) {
    addWire(net);
    addComing(net, epoch);
    addCapacitances(net);
    addClamps(net, epoch);
    addFarEnd(net, epoch);
    addMains(net, epoch);
    addForeign(net, epoch);
    attached.add(net, epoch, conducting);
  }

  private void addWire(Netlist net) {
    Bench.Surroundings s = bench.surroundings();
    double commonPhase = draws.uniform(0, 2 * Math.PI, "hum-phase");
    for (Conductors.Segment segment : conductors.segments()) {
      int port = port(segment.conductor());
      if (s.humVolts() > 0) {
        double peak =
            Math.sqrt(2) * s.humVolts() * draws.uniform(0.5, 1.5, "hum", port) * segment.length();
        double phase = commonPhase + (draws.unit("hum-sense", port) < 0.5 ? 0 : Math.PI);
        net.emf(
            segment.far(),
            segment.near(),
            segment.ohms(),
            Drive.sine(tones.index(s.humHertz()), peak, phase));
      } else {
        net.resistor(segment.near(), segment.far(), segment.ohms());
      }
    }
    for (Conductors.Series series : conductors.series()) {
      net.resistor(series.a(), series.b(), Math.max(series.ohms(), LEAST_OHMS));
    }
  }

  /** Joints that wander, openings that are closed, touches that are there. */
  private void addComing(Netlist net, Epoch epoch) {
    for (int w = 0; w < bench.wanders().size(); w++) {
      int[] ends = conductors.wanderNodes(w);
      net.resistor(ends[0], ends[1], Math.max(epoch.wanderOhms()[w], LEAST_OHMS));
    }
    for (int i = 0; i < bench.intermittents().size(); i++) {
      boolean opening = bench.intermittents().get(i).kind() == Intermittent.Kind.OPENING;
      if (opening != epoch.present(i)) {
        int[] ends = conductors.intermittentNodes(i);
        net.resistor(ends[0], ends[1], opening ? LEAST_OHMS : TOUCH_OHMS);
      }
    }
  }

  private void addCapacitances(Netlist net) {
    Bench.Cable cable = bench.cable();
    List<Conductors.Segment> segments = conductors.segments();
    int others = cable.conductors().size() - 1;
    for (int i = 0; i < segments.size(); i++) {
      Conductors.Segment a = segments.get(i);
      int portA = port(a.conductor());
      double toMetal =
          cable.toMetalFaradsPerMetre()
              * cable.lengthMetres()
              * a.length()
              * (1 + draws.symmetric(bench.spread().capacitance(), "to-metal", portA));
      net.capacitor(a.chargeNode(), metal, toMetal);
      for (int j = i + 1; j < segments.size(); j++) {
        Conductors.Segment b = segments.get(j);
        double overlap = Math.min(a.to(), b.to()) - Math.max(a.from(), b.from());
        if (a.conductor() == b.conductor() || overlap <= 0) {
          continue;
        }
        int portB = port(b.conductor());
        double spread =
            draws.symmetric(
                bench.spread().capacitance(),
                "capacitance",
                Math.min(portA, portB),
                Math.max(portA, portB));
        net.capacitor(
            a.chargeNode(),
            b.chargeNode(),
            cable.faradsPerMetre() / others * cable.lengthMetres() * overlap * (1 + spread));
      }
    }
    if (metal != Nodes.EARTH) {
      net.capacitor(metal, Nodes.EARTH, cable.toMetalFaradsPerMetre() * cable.lengthMetres());
    }
  }

  private void addClamps(Netlist net, Epoch epoch) {
    for (int c = 0; c < bench.cable().conductors().size(); c++) {
      net.resistor(
          Nodes.terminal(port(c)),
          conductors.near(c),
          contactOhms(port(c), Bench.End.NEAR, epoch.nearSeating()));
    }
    if (bench.metal().clipped()) {
      net.resistor(
          Nodes.terminal(Nodes.METAL_PORT),
          metal,
          contactOhms(Nodes.METAL_PORT, Bench.End.NEAR, epoch.nearSeating()));
    }
  }

  double contactOhms(int port, Bench.End end, int seating) {
    for (Bench.ForcedContact forced : bench.contacts()) {
      if (forced.port() == port
          && forced.end() == end
          && (forced.seating() == 0 || forced.seating() == seating)) {
        return Math.max(forced.ohms(), LEAST_OHMS);
      }
    }
    Bench.Spread spread = bench.spread();
    double drawn =
        draws.uniform(
            spread.contactLowOhms(), spread.contactHighOhms(), "contact-" + end, port, seating);
    return Math.max(drawn, LEAST_OHMS);
  }

  private void addFarEnd(Netlist net, Epoch epoch) {
    Bench.FarEnd farEnd = epoch.farEnd();
    if (farEnd == null) {
      return;
    }
    List<Bench.Conductor> list = bench.cable().conductors();
    for (int c = 0; c < list.size(); c++) {
      int position = list.get(c).far();
      if (farEnd.plug() != Bench.PlugKind.OPEN && seated(farEnd, epoch, position)) {
        double arm = farEnd.plug() == Bench.PlugKind.CODED ? arms.actualOhms()[position - 1] : 0;
        net.resistor(
            conductors.far(c),
            plugCommon,
            arm + contactOhms(port(c), Bench.End.FAR, epoch.farSeating()));
      }
      for (int t = 0; t < farEnd.ties().size(); t++) {
        if (farEnd.ties().get(t).contains(position)) {
          net.resistor(
              conductors.far(c),
              firstTwist + t,
              contactOhms(port(c), Bench.End.FAR, epoch.farSeating()));
        }
      }
    }
    for (int t = 0; t < farEnd.ties().size(); t++) {
      if (farEnd.ties().get(t).contains(Bench.FarEnd.METAL)) {
        double contact = contactOhms(Nodes.METAL_PORT, Bench.End.FAR, epoch.farSeating());
        net.resistor(metal, firstTwist + t, contact);
      }
    }
    for (int f = 1; f < farEnd.fingers().size(); f++) {
      net.resistor(
          farNodeAt(farEnd.fingers().get(f - 1)),
          farNodeAt(farEnd.fingers().get(f)),
          farEnd.fingerOhms());
    }
  }

  private boolean seated(Bench.FarEnd farEnd, Epoch epoch, int position) {
    if (!farEnd.seated().isEmpty()) {
      return farEnd.seated().contains(position);
    }
    return draws.unit("seated", epoch.farSeating(), position) < farEnd.seatedFraction();
  }

  private int farNodeAt(int position) {
    List<Bench.Conductor> list = bench.cable().conductors();
    for (int c = 0; c < list.size(); c++) {
      if (list.get(c).far() == position) {
        return conductors.far(c);
      }
    }
    throw new IllegalArgumentException("position=" + position);
  }

  private void addMains(Netlist net, Epoch epoch) {
    Bench.Surroundings s = bench.surroundings();
    double mainsPhase = draws.uniform(0, 2 * Math.PI, "mains-phase");
    if (s.mains().volts() > 0 && s.mains().faradsEach() > 0) {
      Drive drive =
          Drive.sine(tones.index(s.mains().hertz()), Math.sqrt(2) * s.mains().volts(), mainsPhase);
      for (Conductors.Segment segment : conductors.segments()) {
        net.coupling(
            segment.chargeNode(), Nodes.EARTH, s.mains().faradsEach() * segment.length(), drive);
      }
    }
    for (Bench.Induced induced : s.induced()) {
      double peak = epoch.on(induced) ? Math.sqrt(2) * induced.volts() : 0;
      Drive drive = Drive.sine(tones.index(induced.hertz()), peak, mainsPhase);
      for (Conductors.Segment segment : conductors.segments()) {
        if (port(segment.conductor()) == induced.port() && induced.farads() > 0) {
          net.coupling(
              segment.chargeNode(), Nodes.EARTH, induced.farads() * segment.length(), drive);
        }
      }
    }
  }

  private void addForeign(Netlist net, Epoch epoch) {
    List<Bench.Foreign> list = bench.surroundings().foreign();
    for (int f = 0; f < list.size(); f++) {
      Bench.Foreign foreign = list.get(f);
      if (!epoch.on(foreign)) {
        continue;
      }
      Drive drive =
          foreign.hertz() == 0
              ? Drive.constant(foreign.volts())
              : Drive.sine(
                  tones.index(foreign.hertz()),
                  Math.sqrt(2) * foreign.volts(),
                  foreign.phaseDegrees().isPresent()
                      ? Math.toRadians(foreign.phaseDegrees().getAsDouble())
                      : draws.uniform(0, 2 * Math.PI, "foreign-phase", f));
      net.emf(
          Nodes.terminal(foreign.portA()), Nodes.terminal(foreign.portB()), foreign.ohms(), drive);
    }
  }

  private int port(int conductor) {
    return bench.cable().conductors().get(conductor).port();
  }
}
