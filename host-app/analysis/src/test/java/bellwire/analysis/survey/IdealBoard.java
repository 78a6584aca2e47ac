package bellwire.analysis.survey;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.BoardModel.Noise;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/**
 * A board without noise, leakage or tolerance before a resistive network: answers probes by one
 * nodal solve each. Nodes 0 to 16 are the terminals; the network under test may use more.
 * Capacitance is played by one figure a port.
 */
final class IdealBoard {
  static final BoardModel MODEL =
      new BoardModel(
          2.0,
          766,
          100,
          1e-4,
          10_000,
          1e-4,
          1e6,
          5e-4,
          new BoardModel.Temperature(0, 0, 0),
          new BoardModel.Stage(0, 0, 0, 0.0336),
          15.9,
          1.02e6,
          51,
          1e7,
          1e3,
          4e-5,
          3e-10,
          0.1,
          3e-10,
          20_000,
          2.5,
          15e-12,
          5e-12,
          new Noise(2.0e-6, 0.06e-6));

  private final int extraNodes;
  private final Consumer<Network> copper;
  private final double[] farads;

  IdealBoard(int extraNodes, double[] farads, Consumer<Network> copper) {
    this.extraNodes = extraNodes;
    this.farads = farads;
    this.copper = copper;
  }

  void run(Phase phase) {
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      phase.accept(measure(probes));
    }
  }

  List<Reading> measure(List<Probe> probes) {
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : probes) {
      readings.add(measure(probe));
    }
    return readings;
  }

  private Reading measure(Probe probe) {
    int n = Ports.COUNT + extraNodes;
    int drive = n;
    int back = n + 1;
    Network net = new Network(n + 2);
    copper.accept(net);
    for (int i = 0; i < n; i++) {
      net.ground(i, i < Ports.COUNT ? 1 / MODEL.dividerOhms() : 1e-13);
    }
    for (int port = 0; port < Ports.COUNT; port++) {
      int bit = Ports.bit(port);
      if ((probe.drive() & bit) != 0) {
        net.join(port, drive, 1 / MODEL.pathOhms());
      } else if ((probe.returned() & bit) != 0) {
        net.join(port, back, 1 / MODEL.pathOhms());
      } else if ((probe.guard() & bit) != 0) {
        net.ground(port, 1 / MODEL.pathOhms());
      }
    }
    double[] amps = new double[n + 2];
    net.ground(drive, 1 / MODEL.limiterOhms());
    amps[drive] = probe.excite() ? MODEL.excitationVolts() / MODEL.limiterOhms() : 0;
    switch (probe.end()) {
      case LOW -> net.ground(back, 1 / MODEL.lowReferenceOhms());
      case MID, HIGH -> net.ground(back, 1e6 / MODEL.feedbackOhms(probe.end()));
      case CHECK_HIGH -> net.join(drive, back, 1 / MODEL.checkHighOhms()).ground(back, 1e-13);
      case SOFT ->
          net.join(drive, back, 1 / MODEL.checkLowOhms())
              .ground(back, 1 / MODEL.lowReferenceOhms());
      case NONE -> net.ground(back, 1e-13);
    }
    double[] v = net.volts(amps);
    double seen =
        switch (probe.look().kind()) {
          case REFERENCE -> v[back];
          case REFERENCE_REVERSED -> -v[back];
          case TRANSIMPEDANCE -> -1e6 * v[back];
          case PAIR -> v[probe.look().a()] - v[probe.look().b()];
          case TERMINAL -> v[probe.look().a()];
          case MONITOR -> v[probe.look().a()] / 51;
          case MONITOR_PAIR -> (v[probe.look().a()] - v[probe.look().b()]) / 51;
        };
    double[] series = new double[probe.repeats()];
    java.util.Arrays.fill(series, seen);
    if (probe.end() == End.CHECK_HIGH && probe.look().kind() == Kind.TERMINAL) {
      double feed = MODEL.excitationVolts() / (MODEL.checkHighOhms() + MODEL.limiterOhms());
      double tau = farads[probe.look().a()] * Math.abs(seen) / feed;
      double window = probe.pace() == Probe.Pace.INSTANT ? 250e-6 : 2.5e-3;
      double from = Math.max(probe.settleMicros() * 1e-6, 1 / 256e3) + 40 / 256e3;
      for (int k = 0; k < series.length; k++) {
        series[k] *= 1 - new ChargeCurve(from, window).lacking(k, tau);
      }
      seen = series[0];
    }
    long[] micros = new long[series.length];
    for (int k = 0; k < micros.length; k++) {
      micros[k] = 2500L * k;
    }
    boolean over =
        Math.abs(seen) * probe.gain() > 2.5
            || (probe.look().kind() == Kind.TRANSIMPEDANCE && Math.abs(seen) > 0.7);
    return new Reading(
        probe,
        seen,
        probe.repeats() > 1 ? 0 : Double.NaN,
        over,
        new Reading.Series(micros, series));
  }
}
