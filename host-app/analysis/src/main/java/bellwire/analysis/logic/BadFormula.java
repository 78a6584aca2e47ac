package bellwire.analysis.logic;

/** A text that is no formula: where, what is wrong there, and what to do about it. */
public final class BadFormula extends Exception {

  private static final long serialVersionUID = 1L;

  private final int position;
  private final String problem;
  private final String remedy;

  BadFormula(int position, String problem, String remedy) {
    super("at character " + position + ": " + problem + "; " + remedy);
    this.position = position;
    this.problem = problem;
    this.remedy = remedy;
  }

  /** Of the character in the text, from 1. */
  public int position() {
    return position;
  }

  public String problem() {
    return problem;
  }

  public String remedy() {
    return remedy;
  }
}
