package bellwire.app.job;

/** Stored bytes that are not what was written. */
final class Damage extends Exception {
  private static final long serialVersionUID = 1;

  Damage(String words) {
    super(words);
  }
}
