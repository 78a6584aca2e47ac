package bellwire.analysis.ties;

/**
 * Two far ends joined in one round.
 *
 * @param a far number, from 1
 * @param b another, or {@link #METAL}
 */
public record Tie(int a, int b) {
  /** Bare metal at the far end in place of a conductor: known to the near end as its port M. */
  public static final int METAL = 0;

  public Tie {
    if (a < 1 || b < 0 || a == b) {
      throw new IllegalArgumentException("a=" + a + " b=" + b);
    }
  }
}
