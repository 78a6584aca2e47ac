package bellwire.analysis.survey;

/** The ideal board's values, for tests of other packages. */
public final class SmallBoard {
  public static final BoardModel MODEL = IdealBoard.MODEL;

  private SmallBoard() {}
}
