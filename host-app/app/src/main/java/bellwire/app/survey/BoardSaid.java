package bellwire.app.survey;

/**
 * What a board said of itself.
 *
 * @param revision of the board; empty where it was not told
 * @param program version of the agent's program; empty where it was not told
 * @param selfCheck {@link #PASSED}, or in the board's words why it has not passed; empty where it
 *     was not told
 */
public record BoardSaid(String revision, String program, String selfCheck) {
  public static final String PASSED = "passed";
  public static final BoardSaid NOTHING = new BoardSaid("", "", "");

  /** What a simulated bench gives for its program's version. */
  private static final String SIMULATED = "simulated";

  private static final String PROGRAM = "; program ";
  private static final String SELF_CHECK = "; self-check ";

  /**
   * From a greeting.
   *
   * @param refusal why it refuses to measure; empty where its self-check has passed
   */
  public static BoardSaid greeted(String revision, String program, String refusal) {
    return new BoardSaid(revision, program, refusal.isEmpty() ? PASSED : refusal);
  }

  /** The board was armed since, which it is only once it has passed. */
  public BoardSaid armed() {
    return new BoardSaid(revision, program, PASSED);
  }

  /** Whether it is no board, but the simulated bench. */
  public boolean simulated() {
    return program.equals(SIMULATED);
  }

  /** 'A; program 0.7; self-check passed', as a job file has it. */
  public String text() {
    return revision
        + (program.isEmpty() ? "" : PROGRAM + program)
        + (selfCheck.isEmpty() ? "" : SELF_CHECK + selfCheck);
  }

  /** From {@link #text}; of an earlier version it is the revision alone. */
  public static BoardSaid of(String text) {
    int check = text.indexOf(SELF_CHECK);
    String selfCheck = check < 0 ? "" : text.substring(check + SELF_CHECK.length());
    String rest = check < 0 ? text : text.substring(0, check);
    int program = rest.indexOf(PROGRAM);
    return new BoardSaid(
        program < 0 ? rest : rest.substring(0, program),
        program < 0 ? "" : rest.substring(program + PROGRAM.length()),
        selfCheck);
  }
}
