package bellwire.simbench.cable;

import bellwire.simbench.file.Bench;
import java.util.ArrayList;
import java.util.List;

/**
 * What is really on a bench, for tests to compare a result with. Never used by the host: what that
 * learns, it learns through chips and frames.
 */
public final class Truth {
  /**
   * One conductor.
   *
   * @param copperOhms its copper at the cable's temperature
   * @param jointOhms all its joints
   * @param open whether it is cut
   * @param firstOpenAt fraction of the length from the near end; 1 where it is not cut
   */
  public record Wire(
      int port,
      String colour,
      int far,
      double copperOhms,
      double jointOhms,
      boolean open,
      double firstOpenAt) {
    /** From clamp to plug, contacts left out; infinite where it is cut. */
    public double ohms() {
      return open ? Double.POSITIVE_INFINITY : copperOhms + jointOhms;
    }
  }

  private final List<Wire> wires = new ArrayList<>();
  private final List<Epoch> epochs;
  private final CableCircuit cable;
  private final Bench bench;
  private final long seed;

  /**
   * @param epochs the planned ones
   */
  Truth(Bench bench, long seed, CableCircuit cable, List<Epoch> epochs) {
    this.bench = bench;
    this.seed = seed;
    this.cable = cable;
    this.epochs = epochs;
    List<Bench.Conductor> list = bench.cable().conductors();
    for (int c = 0; c < list.size(); c++) {
      int port = list.get(c).port();
      double joints =
          bench.joints().stream()
              .filter(j -> j.port() == port)
              .mapToDouble(Bench.Joint::ohms)
              .sum();
      double cut =
          bench.opens().stream()
              .filter(o -> o.port() == port)
              .mapToDouble(Bench.Open::at)
              .min()
              .orElse(Double.NaN);
      wires.add(
          new Wire(
              port,
              list.get(c).colour(),
              list.get(c).far(),
              cable.conductors().copperOhms(c),
              joints,
              !Double.isNaN(cut),
              Double.isNaN(cut) ? 1 : cut));
    }
  }

  /** In the order of the bench file. */
  public List<Wire> wires() {
    return List.copyOf(wires);
  }

  public Wire wire(int port) {
    return wires.stream()
        .filter(w -> w.port() == port)
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("port=" + port));
  }

  /** Two conductors in series, contacts left out. */
  public double loopOhms(int portA, int portB) {
    return wire(portA).ohms() + wire(portB).ohms();
  }

  /** A port's clamp at a time; port 16 is M's clip. */
  public double nearContactOhms(int port, long nanos) {
    return cable.contactOhms(port, Bench.End.NEAR, epochAt(nanos).nearSeating());
  }

  /** The plug's or twist's contact at a time on the conductor of a port. */
  public double farContactOhms(int port, long nanos) {
    return cable.contactOhms(port, Bench.End.FAR, epochAt(nanos).farSeating());
  }

  /**
   * Every intermittent opening and touch that begins in a stretch of time, by its beginning.
   *
   * @param untilNanos not included
   */
  public List<Occurrence> occurrences(long fromNanos, long untilNanos) {
    return Intermittents.between(bench, seed, fromNanos, untilNanos);
  }

  /**
   * What a wandering joint has at a time.
   *
   * @param wander number in the bench's list, from 0
   */
  public double wanderOhms(int wander, long nanos) {
    Wandering joint = new Wandering(bench.wanders().get(wander), seed, wander);
    while (joint.nextNanos() <= nanos) {
      joint.step();
    }
    return joint.ohms();
  }

  private Epoch epochAt(long nanos) {
    Epoch found = epochs.get(0);
    for (Epoch epoch : epochs) {
      if (epoch.fromNanos() <= nanos) {
        found = epoch;
      }
    }
    return found;
  }
}
