package bellwire.soak;

/** An invariant did not hold. An error, so that nothing of the system under test takes it. */
final class Broken extends Error {
  private static final long serialVersionUID = 1L;

  Broken(String words) {
    super(words);
  }

  Broken(String words, Throwable cause) {
    super(words, cause);
  }
}
