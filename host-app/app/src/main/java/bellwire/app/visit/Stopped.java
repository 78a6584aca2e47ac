package bellwire.app.visit;

import bellwire.app.vigil.VigilRun;

/** A person stopped what ran. The message says whether the board has let go. */
public final class Stopped extends Exception {
  private static final long serialVersionUID = 1L;

  private final boolean letGo;

  Stopped(boolean letGo) {
    super(letGo ? "stopped; the board has let go" : "stopped, but " + VigilRun.NOT_LET_GO);
    this.letGo = letGo;
  }

  public boolean letGo() {
    return letGo;
  }
}
