package bellwire.app.survey;

/** What a board holds while it works, and what is said where nobody knows whether it still does. */
public enum LetGo {
  OF_CABLE("", "the cable"),
  OF_CONTROL(" of the control", "the leads");

  private final String held;
  private final String touched;

  LetGo(String held, String touched) {
    this.held = held;
    this.touched = touched;
  }

  /** The board was asked to stop and did not say that it has. */
  public String untold() {
    return "the board did not say that it has let go"
        + held
        + ": switch it off before you touch "
        + touched;
  }

  /** A person stopped it. */
  public String stopped(boolean letGo) {
    return letGo ? "stopped; the board has let go" + held : "stopped, but " + untold();
  }
}
