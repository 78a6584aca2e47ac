package bellwire.simbench.circuit;

import bellwire.simbench.FilterKernel;
import org.hipparchus.complex.Complex;

/**
 * A circuit's voltages in one switch state from a moment on: a constant, a sine per tone and
 * decaying modes. Times are nanoseconds since the bench's start.
 */
public final class Solution {
  /** A mode that has decayed by exp(−40) is gone: 4e-18 of what it was. */
  private static final double DECAYED = 40;

  private final ModalSystem system;
  private final double excitation;
  private final long startNanos;
  private final double[] amplitudes;

  /**
   * @param excitation 1 with the excitation at its voltage, 0 without
   * @param state voltages of the system's dynamic nodes at the start, then its inductors' currents
   */
  public Solution(ModalSystem system, double excitation, long startNanos, double[] state) {
    this.system = system;
    this.excitation = excitation;
    this.startNanos = startNanos;
    double[] deviation = system.forced(excitation, startNanos * 1e-9);
    for (int i = 0; i < deviation.length; i++) {
      deviation[i] = state[i] - deviation[i];
    }
    amplitudes = system.amplitudes(deviation);
  }

  public long startNanos() {
    return startNanos;
  }

  public ModalSystem system() {
    return system;
  }

  public boolean excited() {
    return excitation != 0;
  }

  /** Whether all that decays has decayed. */
  public boolean settled(long nanos) {
    return activeModes((nanos - startNanos) * 1e-9) == 0;
  }

  /** The voltage that remains when all modes have decayed, tones left out. */
  public double restVolts(Probe probe) {
    return constant(probe);
  }

  /** Real and imaginary part of a tone, peak volts, against the bench's start. */
  public double[] toneVolts(Probe probe, int tone) {
    return new double[] {tone(probe, tone, 0), tone(probe, tone, 1)};
  }

  /** Voltages of the dynamic nodes, then currents of the inductors. */
  public double[] state(long nanos) {
    double[] state = system.forced(excitation, nanos * 1e-9);
    double dt = (nanos - startNanos) * 1e-9;
    int modes = activeModes(dt);
    double[] now = new double[modes];
    for (int k = 0; k < modes; k++) {
      now[k] = amplitudes[k] * Math.exp(-system.lambda(k) * dt);
      if (system.beta(k) != 0) {
        double cos = Math.cos(system.beta(k) * dt);
        double sin = Math.sin(system.beta(k) * dt);
        double decay = Math.exp(-system.lambda(k) * dt);
        now[k] = decay * (amplitudes[k] * cos + amplitudes[k + 1] * sin);
        now[k + 1] = decay * (amplitudes[k + 1] * cos - amplitudes[k] * sin);
        k++;
      }
    }
    system.addModes(now, modes, state);
    return state;
  }

  public double volts(Probe probe, long nanos) {
    return voltsAt(probe, (nanos - startNanos) * 1e-9);
  }

  /** As {@link #volts}, with seconds since this solution's start. */
  double voltsAt(Probe probe, double dt) {
    double volts = constant(probe);
    double seconds = startNanos * 1e-9 + dt;
    for (int tone = 0; tone < system.tones(); tone++) {
      double angle = system.omega(tone) * seconds;
      volts += tone(probe, tone, 0) * Math.cos(angle) - tone(probe, tone, 1) * Math.sin(angle);
    }
    int modes = activeModes(dt);
    for (int k = 0; k < modes; k++) {
      if (system.beta(k) == 0) {
        volts += mode(probe, k) * Math.exp(-system.lambda(k) * dt);
      } else {
        double angle = system.beta(k) * dt;
        volts +=
            Math.exp(-system.lambda(k) * dt)
                * (pairRe(probe, k) * Math.cos(angle) - pairIm(probe, k) * Math.sin(angle));
        k++;
      }
    }
    return volts;
  }

  /**
   * The filter's output for a window that lies in this solution. A moving average of length B turns
   * exp(s·t) into exp(s·t)·(exp(s·B) − 1)/(s·B); a cascade multiplies.
   */
  public double filtered(Probe probe, FilterKernel filter, long windowNanos) {
    double volts = constant(probe);
    double seconds = windowNanos * 1e-9;
    double halfLength = filter.lengthNanos() * 0.5e-9;
    for (int tone = 0; tone < system.tones(); tone++) {
      double omega = system.omega(tone);
      double gain = 1;
      for (long box : filter.boxNanos()) {
        double half = 0.5e-9 * box * omega;
        gain *= half == 0 ? 1 : Math.sin(half) / half;
      }
      double angle = omega * (seconds + halfLength);
      volts +=
          gain * (tone(probe, tone, 0) * Math.cos(angle) - tone(probe, tone, 1) * Math.sin(angle));
    }
    double dt = (windowNanos - startNanos) * 1e-9;
    int modes = activeModes(dt);
    for (int k = 0; k < modes; k++) {
      double lambda = system.lambda(k);
      if (system.beta(k) != 0) {
        volts += filteredPair(probe, k, filter, dt);
        k++;
        continue;
      }
      double gain = Math.exp(-lambda * dt);
      for (long box : filter.boxNanos()) {
        double x = lambda * box * 1e-9;
        gain *= x == 0 ? 1 : -Math.expm1(-x) / x;
      }
      volts += mode(probe, k) * gain;
    }
    return volts;
  }

  /**
   * Bounds of a voltage between two times, never too narrow.
   *
   * @param toNanos end, or {@link Long#MAX_VALUE} for ever after
   */
  public Bounds bounds(Probe probe, long fromNanos, long toNanos) {
    double low = constant(probe);
    double high = low;
    double dt = (fromNanos - startNanos) * 1e-9;
    double width =
        toNanos == Long.MAX_VALUE ? Double.POSITIVE_INFINITY : (toNanos - fromNanos) * 1e-9;
    for (int tone = 0; tone < system.tones(); tone++) {
      double re = tone(probe, tone, 0);
      double im = tone(probe, tone, 1);
      double peak = Math.hypot(re, im);
      double omega = system.omega(tone);
      double phase = Math.atan2(im, re) + omega * fromNanos * 1e-9;
      high += peak * largestCosine(phase, omega * width);
      low -= peak * largestCosine(phase + Math.PI, omega * width);
    }
    int modes = activeModes(dt);
    for (int k = 0; k < modes; k++) {
      if (system.beta(k) != 0) {
        double re = pairRe(probe, k);
        double im = pairIm(probe, k);
        double peak = Math.hypot(re, im) * Math.exp(-system.lambda(k) * dt);
        double late = peak * Math.exp(-system.lambda(k) * width);
        double phase = Math.atan2(im, re) + system.beta(k) * dt;
        double most = largestCosine(phase, system.beta(k) * width);
        double least = -largestCosine(phase + Math.PI, system.beta(k) * width);
        high += Math.max(peak * most, late * most);
        low += Math.min(peak * least, late * least);
        k++;
        continue;
      }
      double first = mode(probe, k) * Math.exp(-system.lambda(k) * dt);
      double last = first * Math.exp(-system.lambda(k) * width);
      high += Math.max(first, last);
      low += Math.min(first, last);
    }
    return new Bounds(low, high);
  }

  /** Lowest and highest voltage, or numbers beyond them. */
  public record Bounds(double low, double high) {}

  private static double largestCosine(double phase, double span) {
    if (span >= 2 * Math.PI) {
      return 1;
    }
    double from = phase - 2 * Math.PI * Math.floor(phase / (2 * Math.PI));
    return from + span >= 2 * Math.PI ? 1 : Math.max(Math.cos(from), Math.cos(from + span));
  }

  private int activeModes(double dt) {
    int modes = system.order();
    while (modes > 0 && system.lambda(modes - 1) * dt > DECAYED) {
      modes--;
    }
    return modes;
  }

  private double constant(Probe probe) {
    return probe.k1() * system.observedConstant(probe.o1(), excitation)
        + probe.k2() * system.observedConstant(probe.o2(), excitation)
        + probe.offsetVolts();
  }

  private double tone(Probe probe, int tone, int part) {
    return probe.k1() * system.observedTone(probe.o1(), tone, part)
        + probe.k2() * system.observedTone(probe.o2(), tone, part);
  }

  private double mode(Probe probe, int k) {
    return amplitudes[k] * weight(probe, k);
  }

  private double weight(Probe probe, int k) {
    return probe.k1() * system.observedModes(probe.o1())[k]
        + probe.k2() * system.observedModes(probe.o2())[k];
  }

  /**
   * A probe sees a pair of modes as the real part of (re + j im)·exp((−λ + jβ)·t): (w(k) + j
   * w(k+1))·(z(k) − j z(k+1)).
   */
  private double pairRe(Probe probe, int k) {
    return weight(probe, k) * amplitudes[k] + weight(probe, k + 1) * amplitudes[k + 1];
  }

  private double pairIm(Probe probe, int k) {
    return weight(probe, k + 1) * amplitudes[k] - weight(probe, k) * amplitudes[k + 1];
  }

  private double filteredPair(Probe probe, int k, FilterKernel filter, double dt) {
    Complex s = new Complex(-system.lambda(k), system.beta(k));
    Complex sum = new Complex(pairRe(probe, k), pairIm(probe, k)).multiply(s.multiply(dt).exp());
    for (long box : filter.boxNanos()) {
      Complex x = s.multiply(box * 1e-9);
      // Close to 0 the quotient loses its digits; two terms of its series have them all.
      sum =
          x.norm() == 0
              ? sum
              : sum.multiply(
                  x.norm() < 1e-6 ? x.multiply(0.5).add(1) : x.exp().subtract(1).divide(x));
    }
    return sum.getReal();
  }
}
