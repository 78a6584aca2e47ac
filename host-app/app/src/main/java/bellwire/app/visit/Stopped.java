package bellwire.app.visit;

import bellwire.app.survey.LetGo;

/** A person stopped what ran. The message says whether the board has let go. */
public final class Stopped extends Exception {
  private static final long serialVersionUID = 1L;

  private final boolean letGo;

  Stopped(boolean letGo) {
    super(LetGo.OF_CABLE.stopped(letGo));
    this.letGo = letGo;
  }

  public boolean letGo() {
    return letGo;
  }
}
