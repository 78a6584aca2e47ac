package bellwire.simbench.cable;

import bellwire.board.BoardDescription;
import bellwire.simbench.circuit.Drive;
import bellwire.simbench.circuit.Netlist;
import bellwire.simbench.file.Bench;

/** The sensing board's analogue side as a circuit, its components drawn within their tolerances. */
final class BoardCircuit {
  private static final String[] COLUMNS = {"drive", "return", "guard"};
  private static final int[] BUSES = {Nodes.DRIVE, Nodes.RETURN, Nodes.GUARD};

  /**
   * What is switched.
   *
   * @param chain the crosspoint word; its excitation bit changes no circuit and is left out
   * @param wetting whether the event path's supply is on its resistors; off, they are cut off too
   */
  record Switches(long chain, boolean relaysClosed, boolean testLoad, boolean wetting) {}

  private final int portBits;
  private final long[][] portMasks = new long[Nodes.PORTS][COLUMNS.length];
  private final long lowMask;
  private final long midMask;
  private final long highMask;
  private final long checkLowMask;
  private final long checkHighMask;

  private final double excitationVolts;
  private final double limiterOhms;
  private final double lowReferenceOhms;
  private final double midOhms;
  private final double highOhms;
  private final FeedbackDiodes diodes;
  private final double checkLowOhms;
  private final double checkHighOhms;
  private final double guardOhms;
  private final double feedbackFarads;
  private final double barrierFarads;
  private final double amplifierGain;
  private final double wettingVolts;
  private final double[] wettingOhms = new double[Nodes.PORTS];
  private final double[] relayOhms = new double[Nodes.PORTS];
  private final double[] dividerOhms = new double[Nodes.PORTS];
  private final double[] dividerShare = new double[Nodes.PORTS];
  private final double[] testLoadOhms = new double[Nodes.PORTS];
  private final double[] strayFarads = new double[Nodes.PORTS];
  private final double[][] switchOhms = new double[Nodes.PORTS][COLUMNS.length];
  private final double[][] leakageAmps = new double[Nodes.PORTS][COLUMNS.length];
  private final double[][] leakageSiemens = new double[Nodes.PORTS][COLUMNS.length];

  BoardCircuit(Bench bench, Draws draws) {
    BoardDescription board = BoardDescription.revisionA();
    portBits = Nodes.PORTS * COLUMNS.length;
    lowMask = 1L << board.chainBit("range-low");
    midMask = 1L << board.chainBit("range-mid");
    highMask = 1L << board.chainBit("range-high");
    checkLowMask = 1L << board.chainBit("check-low");
    checkHighMask = 1L << board.chainBit("check-high");
    excitationVolts = draws.component("excitation-volts");
    limiterOhms = draws.component("limiter-ohms");
    double low = board.nominal("low-reference-ohms");
    lowReferenceOhms =
        bench.board().referenceError().isPresent()
            ? low * (1 + bench.board().referenceError().getAsDouble())
            : reference(draws, "low");
    // The range's switch lies in series with the feedback and is taken off it at its nominal value.
    double switchNominal = board.nominal("switch-ohms");
    midOhms = reference(draws, "mid") + draws.component("switch-ohms", -1) - switchNominal;
    highOhms = reference(draws, "high") + draws.component("switch-ohms", -2) - switchNominal;
    diodes = new FeedbackDiodes(board, draws.component("feedback-diode-amps"));
    checkLowOhms = draws.component("check-low-ohms");
    checkHighOhms = draws.component("check-high-ohms");
    guardOhms = draws.component("guard-driver-ohms");
    feedbackFarads = draws.component("high-feedback-farads");
    barrierFarads = draws.component("barrier-farads");
    amplifierGain = draws.component("amplifier-gain");
    wettingVolts = draws.component("event-wetting-volts");
    double perVolt = board.value("switch-leakage-per-volt").tolerance();
    for (int p = 0; p < Nodes.PORTS; p++) {
      wettingOhms[p] = draws.component("event-wetting-ohms", p);
      relayOhms[p] = draws.component("relay-ohms", p);
      double top = draws.component("divider-top-ohms", p);
      double bottom = draws.component("divider-bottom-ohms", p);
      dividerOhms[p] = top + bottom;
      dividerShare[p] = bottom / (top + bottom);
      testLoadOhms[p] = draws.component("test-load-ohms", p);
      strayFarads[p] = draws.component("port-stray-farads", p);
      for (int column = 0; column < COLUMNS.length; column++) {
        portMasks[p][column] = 1L << board.chainBit(p, COLUMNS[column]);
        switchOhms[p][column] = draws.component("switch-ohms", p, column);
        double amps = bench.board().switchLeakageAmps();
        leakageAmps[p][column] = draws.symmetric(amps, "switch-leakage", p, column);
        // An open switch conducts a little, never the reverse: the change per volt takes the sign
        // that makes it a conductance.
        leakageSiemens[p][column] =
            Math.abs(
                leakageAmps[p][column]
                    * draws.symmetric(perVolt, "switch-leakage-per-volt", p, column));
      }
    }
  }

  /** A reference resistor at the board's temperature. */
  private static double reference(Draws draws, String range) {
    double warmth =
        draws.component(range + "-reference-per-kelvin") * draws.component("board-kelvin");
    return draws.component(range + "-reference-ohms") * (1 + warmth);
  }

  FeedbackDiodes diodes() {
    return diodes;
  }

  /** The feedback that a chain word switches on; infinite without a stage. */
  double feedbackOhms(long chain) {
    double siemens =
        ((chain & midMask) != 0 ? 1 / midOhms : 0) + ((chain & highMask) != 0 ? 1 / highOhms : 0);
    return 1 / siemens;
  }

  /** Share of a terminal's voltage at its monitor tap. */
  double dividerShare(int port) {
    return dividerShare[port];
  }

  /** The transimpedance stage's output over the return bus's voltage. */
  double stageGain(long chain) {
    return stage(chain) ? -amplifierGain : 0;
  }

  boolean lowRange(long chain) {
    return (chain & lowMask) != 0;
  }

  /** Whether the stage holds the return bus; it then has a capacitance. */
  boolean stage(long chain) {
    return (chain & (midMask | highMask)) != 0;
  }

  /** What the feedback capacitor looks like from the return bus, (1 + A)·C. */
  double stageFarads(long chain) {
    int stages = Long.bitCount(chain & (midMask | highMask));
    return stages * (1 + amplifierGain) * feedbackFarads;
  }

  /** The part that no switch changes. */
  void addFixed(Netlist net, int metalChargeNode) {
    for (int p = 0; p < Nodes.PORTS; p++) {
      net.resistor(Nodes.terminal(p), Netlist.COMMON, dividerOhms[p]);
      int charge = p == Nodes.METAL_PORT ? metalChargeNode : Nodes.terminal(p);
      net.capacitor(charge, Netlist.COMMON, strayFarads[p]);
    }
    net.capacitor(Nodes.EARTH, Netlist.COMMON, barrierFarads);
  }

  /** The part behind the terminals, as switched. */
  void addSwitched(Netlist net, Switches switches) {
    net.emf(Nodes.DRIVE, Netlist.COMMON, limiterOhms, Drive.excitation(excitationVolts));
    net.resistor(Nodes.GUARD, Netlist.COMMON, guardOhms);
    addRange(net, switches.chain());
    for (int p = 0; p < Nodes.PORTS; p++) {
      if (switches.testLoad()) {
        net.resistor(Nodes.terminal(p), Netlist.COMMON, testLoadOhms[p]);
      }
      if (switches.relaysClosed()) {
        net.resistor(Nodes.terminal(p), Nodes.inner(p), relayOhms[p]);
      }
      if (switches.wetting() && p != Nodes.METAL_PORT) {
        net.emf(Nodes.inner(p), Netlist.COMMON, wettingOhms[p], Drive.constant(wettingVolts));
      }
      for (int column = 0; column < COLUMNS.length; column++) {
        if ((switches.chain() & portMasks[p][column]) != 0) {
          net.resistor(Nodes.inner(p), BUSES[column], switchOhms[p][column]);
        } else {
          net.inject(BUSES[column], leakageAmps[p][column]);
          if (leakageSiemens[p][column] > 0) {
            net.resistor(Nodes.inner(p), BUSES[column], 1 / leakageSiemens[p][column]);
          }
        }
      }
    }
  }

  private void addRange(Netlist net, long chain) {
    if (lowRange(chain)) {
      net.resistor(Nodes.RETURN, Netlist.COMMON, lowReferenceOhms);
    }
    if ((chain & midMask) != 0) {
      net.resistor(Nodes.RETURN, Netlist.COMMON, midOhms / (1 + amplifierGain));
    }
    if ((chain & highMask) != 0) {
      net.resistor(Nodes.RETURN, Netlist.COMMON, highOhms / (1 + amplifierGain));
    }
    if (stage(chain)) {
      net.capacitor(Nodes.RETURN, Netlist.COMMON, stageFarads(chain));
    }
    if ((chain & checkLowMask) != 0) {
      net.resistor(Nodes.DRIVE, Nodes.RETURN, checkLowOhms);
    }
    if ((chain & checkHighMask) != 0) {
      net.resistor(Nodes.DRIVE, Nodes.RETURN, checkHighOhms);
    }
  }

  /** The bits of a chain word that change the circuit. */
  long circuitBits(long chain) {
    return chain
        & (((1L << portBits) - 1) | lowMask | midMask | highMask | checkLowMask | checkHighMask);
  }
}
