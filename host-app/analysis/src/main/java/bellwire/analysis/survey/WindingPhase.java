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

  /**
   * 160 to 410 µs after the switching, of up to 2.2 mA; hum of 7 mV in each of two conductors sends
   * 0.2 mA through the loop.
   */
  private static final double LASTING_AMPS = 250e-6;

  /** What is joined by less than some 1 kohm takes more. */
  private static final double COPPER_AMPS = 1e-3;

  private final BoardModel board;
  private final List<Integer> ports;
  private final int present;
  private int windings;
  private int copper;
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
      double driven = readings.get(3 * k).volts() / board.lowReferenceOhms();
      // A charge that comes back has the other sign.
      boolean plain = driven > COPPER_AMPS && Math.abs(amps) <= LASTING_AMPS;
      copper |= plain ? Ports.bit(ports.get(k)) : 0;
      windings |= amps > LASTING_AMPS ? Ports.bit(ports.get(k)) : 0;
    }
    over = true;
  }

  /**
   * Mask of the ports that a low resistance joins, where there is no winding at all: they need no
   * rests. A jumper hides from one of its ends a winding that is on the other.
   */
  int copper() {
    return windings == 0 ? copper : 0;
  }

  /** Mask of the ports with a winding on them. */
  public int windings() {
    return windings;
  }
}
