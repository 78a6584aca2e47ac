package bellwire.app.cli;

import java.io.PrintWriter;

/** What a command's exit status means; README.md lists the same numbers. */
public enum ExitCode {
  ALL_SOUND(0, "All sound; free of findings; every rule kept."),
  FAULT_FOUND(1, "A fault found, or something left undecided or not covered."),
  WRONG_USAGE_OR_FILE(2, "Wrong usage, or a file that cannot be used or written."),
  BOARD_OR_LINK_TROUBLE(3, "Trouble with the board or the link."),
  FOREIGN_VOLTAGE(4, "Foreign voltage: the board stays disconnected."),
  /**
   * A fault of the program itself. Kept apart from the others: a crash must never read as a verdict
   * on a cable.
   */
  PROGRAM_ERROR(70, "A fault of the program itself, and never a verdict on a cable."),
  INTERRUPTED(130, "Stopped with Ctrl-C: no verdict.");

  private final int status;
  private final String meaning;

  ExitCode(int status, String meaning) {
    this.status = status;
    this.meaning = meaning;
  }

  /** A sentence. */
  String meaning() {
    return meaning;
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
