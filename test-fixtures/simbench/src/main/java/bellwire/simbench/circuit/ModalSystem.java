package bellwire.simbench.circuit;

/**
 * One switch state of a linear circuit: what its sources keep up, a constant and a sine for each
 * tone, and modes that decay. A mode is real, or one of two neighbours that oscillate together:
 * with amplitudes z(k) and z(k+1) and c = z(k) − j z(k+1), it goes as c·exp((−λ + jβ)·t).
 */
public abstract sealed class ModalSystem permits LinearSystem, InductiveSystem {

  /** Number of modes, and of entries of a state. */
  public abstract int order();

  public abstract int tones();

  abstract double omega(int tone);

  /** Decay of a mode, 1/s, rising with its number. */
  abstract double lambda(int mode);

  /** Decay of the slowest mode, 1/s. */
  public double slowest() {
    return order() == 0 ? Double.POSITIVE_INFINITY : lambda(0);
  }

  /** Angular frequency of a mode and the next, rad/s; 0 for a real one. */
  double beta(int mode) {
    return 0;
  }

  /** How much of a mode an observed node sees. */
  abstract double[] observedModes(int observed);

  abstract double observedConstant(int observed, double excitation);

  /** Real (part 0) or imaginary (part 1) part of a tone at an observed node. */
  abstract double observedTone(int observed, int tone, int part);

  /** The state that the sources alone keep up, without any decaying mode. */
  abstract double[] forced(double excitation, double seconds);

  /** Amplitudes of the modes that make up a deviation from the forced state. */
  abstract double[] amplitudes(double[] deviation);

  /** Adds the first modes, with these amplitudes, to a state. */
  abstract void addModes(double[] amplitudes, int count, double[] state);
}
