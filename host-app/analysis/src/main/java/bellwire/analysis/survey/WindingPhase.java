package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.List;

/**
 * Which of the ports that something joins to others hang on a winding: each is driven against all
 * others until its current stands, then left to the low reference; copper's current is gone at
 * once, a winding's goes on. Theory (40).
 */
public final class WindingPhase implements Phase {
  private static final int SETTLE_MICROS = 16_000;

  /** 160 to 410 µs after the switching, a share of the 2.3 mA; hum stays below half of it. */
  private static final double LASTING_AMPS = 50e-6;

  private final BoardModel board;
  private final List<Integer> ports;
  private final int present;
  private int windings;
  private boolean over;

  /**
   * @param joined mask of the ports to look at
   * @param present mask of the ports with copper on them
   */
  public WindingPhase(BoardModel board, int joined, int present) {
    this.board = board;
    this.present = present;
    ports = Ports.list(joined & present);
    over = ports.size() < 2;
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    if (over) {
      return probes;
    }
    for (int port : ports) {
      int bit = Ports.bit(port);
      Probe driven =
          new Probe(
              bit,
              present & ~bit,
              Ports.ALL & ~present,
              true,
              End.LOW,
              Look.REFERENCE,
              4,
              Pace.QUICK,
              SETTLE_MICROS,
              1,
              false);
      Probe left =
          new Probe(
              0,
              bit,
              Ports.ALL & ~bit,
              false,
              End.LOW,
              Look.REFERENCE,
              4,
              Pace.INSTANT,
              3,
              1,
              false);
      probes.add(driven);
      probes.add(left);
      probes.add(Rests.after(driven));
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    for (int k = 0; k < ports.size(); k++) {
      double amps = -readings.get(3 * k + 1).volts() / board.lowReferenceOhms();
      windings |= amps > LASTING_AMPS ? Ports.bit(ports.get(k)) : 0;
    }
    over = true;
  }

  /** Mask of the ports with a winding on them. */
  public int windings() {
    return windings;
  }
}
