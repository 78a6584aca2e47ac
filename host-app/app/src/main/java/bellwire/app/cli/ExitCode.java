package bellwire.app.cli;

/** What a command's exit status means; README.md lists the same numbers. */
public enum ExitCode {
  ALL_SOUND(0),
  FAULT_FOUND(1),
  WRONG_USAGE_OR_FILE(2),
  BOARD_OR_LINK_TROUBLE(3),
  FOREIGN_VOLTAGE(4),
  /**
   * A fault of the program itself. Kept apart from the others: a crash must never read as a verdict
   * on a cable.
   */
  PROGRAM_ERROR(70),
  /** Ctrl-C: no verdict. */
  INTERRUPTED(130);

  private final int status;

  ExitCode(int status) {
    this.status = status;
  }

  public int status() {
    return status;
  }
}
