package bellwire.simbench.cable;

import bellwire.board.BoardDescription;

/**
 * Random draws by name: each depends on the seed and its own name alone, so that a new draw, or
 * another order, changes no other one. Mixing as in SplitMix64 (Steele, Lea and Flood, OOPSLA
 * 2014).
 */
final class Draws {
  private final long seed;

  Draws(long seed) {
    this.seed = mix(seed + 0x9e3779b97f4a7c15L);
  }

  /** Uniform in [0, 1). */
  double unit(String what, long... index) {
    long h = seed;
    for (int i = 0; i < what.length(); i++) {
      h = mix(h + what.charAt(i));
    }
    for (long i : index) {
      h = mix(h + 0x9e3779b97f4a7c15L * (i + 1));
    }
    return (mix(h) >>> 11) * 0x1.0p-53;
  }

  double uniform(double low, double high, String what, long... index) {
    return low + (high - low) * unit(what, index);
  }

  double symmetric(double halfWidth, String what, long... index) {
    return uniform(-halfWidth, halfWidth, what, index);
  }

  /** A component of the board's, within its tolerance. */
  double component(String name, long... index) {
    BoardDescription.Value value = BoardDescription.revisionA().value(name);
    return value.nominal() + symmetric(value.tolerance(), name, index);
  }

  private static long mix(long z) {
    z = (z ^ (z >>> 30)) * 0xbf58476d1ce4e5b9L;
    z = (z ^ (z >>> 27)) * 0x94d049bb133111ebL;
    return z ^ (z >>> 31);
  }
}
