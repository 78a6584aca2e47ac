package bellwire.simbench.circuit;

/**
 * What a source does in time: Re((re + j im) exp(jωt)), t the time since the bench's start.
 *
 * @param tone index of the source's frequency, or {@link #DC}, or {@link #EXCITATION} for the one
 *     source that is switched without changing the circuit
 * @param re peak volts, real part
 * @param im peak volts, imaginary part; 0 for a constant source
 */
public record Drive(int tone, double re, double im) {
  public static final int DC = -1;
  public static final int EXCITATION = -2;

  public static Drive constant(double volts) {
    return new Drive(DC, volts, 0);
  }

  public static Drive excitation(double volts) {
    return new Drive(EXCITATION, volts, 0);
  }

  public static Drive sine(int tone, double peakVolts, double phaseRadians) {
    return new Drive(tone, peakVolts * Math.cos(phaseRadians), peakVolts * Math.sin(phaseRadians));
  }

  /** First of this drive's columns among a graph's right-hand sides. */
  int column() {
    return switch (tone) {
      case DC -> 0;
      case EXCITATION -> 1;
      default -> 2 + 2 * tone;
    };
  }
}
