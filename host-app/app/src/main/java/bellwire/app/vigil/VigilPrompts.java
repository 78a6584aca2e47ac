package bellwire.app.vigil;

import bellwire.analysis.vigil.ShortestOpening;
import bellwire.board.BoardDescription;
import bellwire.link.Message.KeepVigil.Kind;

/** What is said and asked of a vigil, at the terminal and on the desk. */
public final class VigilPrompts {
  /** The commonest note. */
  public static final String SHOOK = "shook the cable";

  public static final String FOREIGN =
      "There was voltage on the cable. Touch nothing: find what feeds it, a transformer left on or a"
          + " second one, switch it off and prove the cable dead again. Then begin a new vigil.";

  /** One conductor to all the others and to what is around it. Common practice, no source. */
  private static final double FARADS_PER_METRE = 65e-12;

  /** What is on the far ends of a trend's conductors. */
  public enum FarEnd {
    /** More than copper and a tie, so that a conductor with a bad joint can still be read. */
    TIE(10),
    /** The coded plug's highest arm, and copper. */
    CODED(720);

    private final double expectedOhms;

    FarEnd(double expectedOhms) {
      this.expectedOhms = expectedOhms;
    }

    public double expectedOhms() {
      return expectedOhms;
    }
  }

  private VigilPrompts() {}

  /** What a program sees, and what it needs. */
  public static String sees(Kind kind) {
    return switch (kind) {
      case CALLS -> "the control's calls, the equipment may run.";
      case CONTINUITY -> "openings, far ends tied or in a plug.";
      case TOUCH -> "conductors that touch, far ends open.";
      case TREND -> "each conductor's resistance, far ends tied.";
    };
  }

  /** The shortest opening of a continuity vigil that so long a run lets through to the board. */
  public static double shortestOpeningMicros(double metres) {
    BoardDescription board = BoardDescription.revisionA();
    return ShortestOpening.micros(
        board.nominal("event-wetting-ohms"),
        board.nominal("port-stray-farads") + metres * FARADS_PER_METRE);
  }
}
