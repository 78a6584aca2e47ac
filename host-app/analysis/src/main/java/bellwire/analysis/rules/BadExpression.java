package bellwire.analysis.rules;

/** An expression that can't be read. The message is the problem and the remedy. */
public final class BadExpression extends Exception {
  private static final long serialVersionUID = 1L;

  private final int position;
  private final String problem;
  private final String remedy;

  BadExpression(int position, String problem, String remedy) {
    super(problem + ": " + remedy);
    this.position = position;
    this.problem = problem;
    this.remedy = remedy;
  }

  /** Index into the text, from 0; its length if something is missing at the end. */
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
