package bellwire.simbench.circuit;

/** What the phase of the tones, at the moment of a switch, can change of what follows. */
public final class Phases {
  private Phases() {}

  /**
   * A bound on a voltage's part that comes of tones, at any time after a switch from one state at
   * rest to another, whatever their phases.
   *
   * @param before of the same nodes as {@code after}
   */
  public static double reachVolts(LinearSystem before, LinearSystem after, Probe probe) {
    double reach = 0;
    for (int tone = 0; tone < after.tones(); tone++) {
      double[][] amplitudes = new double[2][];
      for (int part = 0; part < 2; part++) {
        double[] change = before.toneState(tone, part);
        double[] kept = after.toneState(tone, part);
        for (int i = 0; i < change.length; i++) {
          change[i] -= kept[i];
        }
        amplitudes[part] = after.amplitudes(change);
        reach += Math.abs(seen(after, probe, tone, part));
      }
      for (int k = 0; k < after.order(); k++) {
        double weight =
            probe.k1() * after.observedModes(probe.o1())[k]
                + probe.k2() * after.observedModes(probe.o2())[k];
        reach += Math.abs(weight) * Math.hypot(amplitudes[0][k], amplitudes[1][k]);
      }
    }
    return reach;
  }

  private static double seen(LinearSystem system, Probe probe, int tone, int part) {
    return probe.k1() * system.observedTone(probe.o1(), tone, part)
        + probe.k2() * system.observedTone(probe.o2(), tone, part);
  }
}
