package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.Look;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Looks for voltage on the cable with every relay open, and where there is some, asks by the test
 * load whether something drives it or a neighbouring mains cable only induces it. Theory (18).
 */
public final class ForeignCheck implements Phase {
  /** Above this a port is live, whatever the interlock says. */
  public static final double LIVE_VOLTS = 0.4;

  /** Whole cycles of both mains frequencies: 40 readings at 400 a second. */
  private static final int READINGS = 40;

  /** What the converter's window of a 400th of a second leaves of 50 and 60 Hz: 0.974 and 0.963. */
  private static final double WAVE_SHARE = 0.968;

  private static final int MOST_LIVE = 4;

  /**
   * What was found.
   *
   * @param a one port
   * @param b the other; −1 when only the first stands out
   * @param volts root mean square between them, nothing connected
   * @param loadedVolts the same with the test load on every port
   * @param alternating whether it alternates
   */
  public record Foreign(int a, int b, double volts, double loadedVolts, boolean alternating) {

    /** Something with a low impedance stands behind it; otherwise it is induced. */
    public boolean driven() {
      return loadedVolts > 0.3 * volts;
    }

    public String words() {
      String where =
          b < 0 ? "on " + Ports.name(a) : "between " + Ports.name(a) + " and " + Ports.name(b);
      String kind = alternating ? " V AC " : " V DC ";
      String source =
          driven()
              ? ", driven: it stays under the test load"
              : ", induced by a cable nearby: it falls to "
                  + String.format(Locale.ROOT, "%.2f V", loadedVolts)
                  + " under the test load";
      return String.format(Locale.ROOT, "%.1f", volts) + kind + where + source;
    }
  }

  private final BoardModel board;
  private final List<int[]> pairs = new ArrayList<>();
  private final List<Integer> live = new ArrayList<>();
  private boolean looked;
  private boolean over;
  private @Nullable Foreign worst;

  public ForeignCheck(BoardModel board) {
    this.board = board;
  }

  @Override
  public List<Probe> next() {
    List<Probe> probes = new ArrayList<>();
    if (!looked) {
      for (int port = 0; port < Ports.COUNT; port++) {
        probes.add(Probe.monitor(Look.monitor(port), READINGS, false));
      }
    } else if (!over) {
      for (int[] pair : pairs) {
        Look look = pair[1] < 0 ? Look.monitor(pair[0]) : Look.monitorPair(pair[0], pair[1]);
        probes.add(Probe.monitor(look, READINGS, false));
        probes.add(Probe.monitor(look, READINGS, true));
      }
    }
    return probes;
  }

  @Override
  public void accept(List<Reading> readings) {
    if (!looked) {
      looked = true;
      List<Reading> loud = new ArrayList<>(readings);
      loud.sort(Comparator.comparingDouble(this::rms).reversed());
      for (Reading reading : loud) {
        if (rms(reading) > LIVE_VOLTS && live.size() < MOST_LIVE) {
          live.add(reading.probe().look().a());
        }
      }
      askPairs();
      over = pairs.isEmpty();
      return;
    }
    over = true;
    for (int k = 0; k < pairs.size(); k++) {
      Reading bare = readings.get(2 * k);
      double volts = rms(bare);
      Foreign found =
          new Foreign(
              pairs.get(k)[0],
              pairs.get(k)[1],
              volts,
              rms(readings.get(2 * k + 1)),
              bare.scatterVolts() > Math.abs(bare.volts()));
      if (worst == null || rank(found) > rank(worst)) {
        worst = found;
      }
    }
  }

  private void askPairs() {
    live.sort(null);
    for (int i = 0; i < live.size(); i++) {
      for (int j = i + 1; j < live.size(); j++) {
        pairs.add(new int[] {live.get(i), live.get(j)});
      }
    }
    if (live.size() == 1) {
      pairs.add(new int[] {live.get(0), -1});
    }
  }

  /** A driven voltage is worse than any induced one. */
  private static double rank(Foreign found) {
    return found.volts() + (found.driven() ? 1000 : 0);
  }

  private double rms(Reading reading) {
    double wave = Double.isNaN(reading.scatterVolts()) ? 0 : reading.scatterVolts() / WAVE_SHARE;
    return Math.hypot(reading.volts(), wave) * board.monitorRatio();
  }

  /** The worst voltage found; null when there is none. */
  public @Nullable Foreign foreign() {
    return worst;
  }
}
