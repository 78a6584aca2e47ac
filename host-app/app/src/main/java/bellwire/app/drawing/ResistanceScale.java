package bellwire.app.drawing;

/** A logarithmic scale of resistances, as shades between two colours. */
final class ResistanceScale {
  private static final double LEAST_OHMS = 1e-2;
  private static final double MOST_OHMS = 1e9;

  private ResistanceScale() {}

  /** 0 for the least or less, 1 for the most or more. */
  static double share(double ohms) {
    double share = Math.log(ohms / LEAST_OHMS) / Math.log(MOST_OHMS / LEAST_OHMS);
    return Math.max(0, Math.min(1, Double.isNaN(share) ? 0 : share));
  }

  static Tone ground(double share) {
    return p -> Palette.mix(p.low(), p.high(), share);
  }

  /** Black or white, whichever reads on the ground. */
  static Tone text(double share) {
    return p -> Palette.readable(Palette.mix(p.low(), p.high(), share));
  }
}
