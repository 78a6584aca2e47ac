package bellwire.simbench.cable;

import bellwire.board.BoardDescription;
import bellwire.link.Tap;
import bellwire.simbench.circuit.Probe;
import bellwire.simbench.file.Bench;

/**
 * What each tap shows: terminals through the sense resistors, shifted by the multiplexers' leakage
 * and by thermal EMF; monitors through the interlock's dividers.
 */
final class SenseTaps {
  private record View(int observed, double weight, double offsetVolts) {
    static final View ZERO = new View(0, 0, 0);
  }

  private final BoardCircuit board;
  private final double[] tapOhms = new double[Nodes.PORTS];
  private final double[] emfVolts = new double[Nodes.PORTS];
  private final double[] leakageAmps = new double[2];
  private final double[] leakagePerVolt = new double[2];

  SenseTaps(Bench bench, Draws draws, BoardCircuit board) {
    this.board = board;
    BoardDescription description = BoardDescription.revisionA();
    for (int p = 0; p < Nodes.PORTS; p++) {
      tapOhms[p] = draws.component("sense-tap-ohms", p);
      emfVolts[p] = draws.component("thermal-emf-volts", p);
    }
    double nominal = description.value("switch-leakage-amps").tolerance();
    double scale = bench.board().switchLeakageAmps() / nominal;
    for (int m = 0; m < leakageAmps.length; m++) {
      leakageAmps[m] = scale * draws.component("tap-leakage-amps", m);
      leakagePerVolt[m] =
          draws.symmetric(
              description.value("switch-leakage-per-volt").tolerance(), "tap-leakage-per-volt", m);
    }
  }

  /** The plus tap through multiplexer A, less the minus tap through B. */
  Probe probe(Tap plus, Tap minus, long chain) {
    View a = view(plus, 0, chain);
    View b = view(minus, 1, chain);
    return new Probe(
        a.observed(), a.weight(), b.observed(), -b.weight(), a.offsetVolts() - b.offsetVolts());
  }

  private View view(Tap tap, int multiplexer, long chain) {
    return switch (tap.kind()) {
      case SENSE -> sense(tap.port(), multiplexer);
      case MONITOR -> new View(tap.port(), board.dividerShare(tap.port()), 0);
      // The upper Kelvin tap hangs on the range's switch: at common where the range is off.
      case REFERENCE_HIGH ->
          board.lowRange(chain) ? new View(Topologies.OBSERVED_RETURN, 1, 0) : View.ZERO;
      case REFERENCE_LOW, COMMON -> View.ZERO;
      case TRANSIMPEDANCE -> new View(Topologies.OBSERVED_RETURN, board.stageGain(chain), 0);
      case DRIVE_BUS -> new View(Topologies.OBSERVED_DRIVE, 1, 0);
      case RETURN_BUS -> new View(Topologies.OBSERVED_RETURN, 1, 0);
    };
  }

  private View sense(int port, int multiplexer) {
    if (port == Nodes.METAL_PORT) {
      // M has its own converter input, and no multiplexer to leak.
      return new View(port, 1, emfVolts[port]);
    }
    double drop = leakageAmps[multiplexer] * tapOhms[port];
    return new View(port, 1 - drop * leakagePerVolt[multiplexer], emfVolts[port] - drop);
  }
}
