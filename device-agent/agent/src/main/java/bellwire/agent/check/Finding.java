package bellwire.agent.check;

/**
 * One precondition.
 *
 * @param what in a few words
 * @param found what was seen; where it failed, with the remedy
 */
public record Finding(Verdict verdict, String what, String found) {

  /** How it stands. */
  public enum Verdict {
    PASS("pass"),
    /** It works, and could be better. */
    NOTE("note"),
    FAIL("FAIL");

    private final String word;

    Verdict(String word) {
      this.word = word;
    }
  }

  static Finding pass(String what, String found) {
    return new Finding(Verdict.PASS, what, found);
  }

  static Finding note(String what, String found) {
    return new Finding(Verdict.NOTE, what, found);
  }

  static Finding fail(String what, String found) {
    return new Finding(Verdict.FAIL, what, found);
  }

  /** One line for a person. */
  public String line() {
    return verdict.word + "  " + what + ": " + found;
  }
}
