package bellwire.app.cli;

import java.io.PrintWriter;

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

  /**
   * This one's status, where what was printed has gone out; otherwise that of a file that can't be
   * written, and said so. The writer does not notice; standard output remembers.
   */
  int ifPrinted(PrintWriter out, PrintWriter err) {
    out.flush();
    if (!System.out.checkError()) {
      return status;
    }
    err.println("bellwire: it could not be printed: its output was closed, or its disk is full");
    err.flush();
    return WRONG_USAGE_OR_FILE.status;
  }
}
