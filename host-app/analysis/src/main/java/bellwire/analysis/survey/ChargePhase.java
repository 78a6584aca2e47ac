package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Capacitance of every cluster of conductors to all the others, which are held at common: charged
 * through the high check resistor and watched for several cycles of the mains without a break, so
 * that hum and charge are told apart. Theory (25) and (26).
 */
final class ChargePhase implements Phase {
  /** The shortest delay there is: what a short conductor lacks is over soon. */
  private static final int SETTLE_MICROS = 3;

  /** Three cycles of 50 Hz, and some time constants of the longest cable. */
  private static final int CONVERSIONS = 24;

  private static final double WINDOW_SECONDS = 2.5e-3;

  /** Leaves room for 1.2 V of charge and hum. */
  private static final int GAIN = 2;

  private final BoardModel board;
  private final List<List<Integer>> clusters;
  private final List<@Nullable Quantity> farads = new ArrayList<>();
  private boolean over;

  ChargePhase(BoardModel board, List<List<Integer>> clusters) {
    this.board = board;
    this.clusters = clusters;
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    if (over) {
      return probes;
    }
    for (int c : charged()) {
      List<Integer> cluster = clusters.get(c);
      Look look = Look.terminal(cluster.get(0));
      int mask = Ports.mask(cluster);
      probes.add(
          new Probe(0, 0, Ports.ALL, false, End.NONE, look, GAIN, Pace.INSTANT, 250, 1, false));
      probes.add(
          new Probe(
              0,
              mask,
              Ports.ALL & ~mask,
              true,
              End.CHECK_HIGH,
              look,
              GAIN,
              Pace.WAVE,
              SETTLE_MICROS,
              CONVERSIONS,
              false));
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    ChargeFit fit = new ChargeFit(board, GAIN);
    int at = 1;
    for (int c : charged()) {
      Reading reading = readings.get(at);
      Reading.Series series = reading.series();
      if (series != null && !reading.overloaded()) {
        fit.add(c, windows(series), series.volts());
      }
      at += 2;
    }
    fit.solve();
    for (int c = 0; c < clusters.size(); c++) {
      farads.add(fit.farads(c));
    }
    over = true;
  }

  /** Clusters without bare metal, by their index. */
  private int[] charged() {
    return IntStream.range(0, clusters.size())
        .filter(c -> !clusters.get(c).contains(Ports.METAL))
        .toArray();
  }

  /** Which conversion each was, counted from the first: one may have been missed. */
  private static int[] windows(Reading.Series series) {
    int[] windows = new int[series.volts().length];
    for (int k = 0; k < windows.length; k++) {
      double since = (series.endMicros()[k] - series.endMicros()[0]) * 1e-6;
      windows[k] = (int) Math.round(since / WINDOW_SECONDS);
    }
    return windows;
  }

  /**
   * By cluster, stray capacitance included; null where a leakage hides it, and for metal. Errors
   * that all share (excitation, check resistor, switch leakage: 1 % together) are not in u.
   */
  List<@Nullable Quantity> farads() {
    return Collections.unmodifiableList(farads);
  }
}
