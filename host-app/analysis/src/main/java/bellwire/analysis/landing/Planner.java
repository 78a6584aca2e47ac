package bellwire.analysis.landing;

/** Proposes the landing with the fewest moved conductors that the check finds nothing against. */
public final class Planner {

  /** Told how far the search is. */
  @FunctionalInterface
  public interface Progress {
    Progress NONE = (moves, schemes) -> true;

    /**
     * @param moves all landings with fewer moves have been ruled out
     * @param schemes ways to connect the terminals that were followed so far
     * @return false to stop
     */
    boolean more(int moves, long schemes);
  }

  /** The search was stopped by its {@link Progress}. */
  public static final class Stopped extends RuntimeException {
    private static final long serialVersionUID = 1;

    Stopped() {
      super("stopped");
    }
  }

  private Planner() {}

  /**
   * @throws Stopped when told to
   * @throws IllegalArgumentException where the landing as found names a conductor or a terminal of
   *     the equipment that is not there
   */
  public static Proposal plan(Replacement replacement, Progress progress) {
    throw new UnsupportedOperationException("control=" + replacement.control().title());
  }
}
