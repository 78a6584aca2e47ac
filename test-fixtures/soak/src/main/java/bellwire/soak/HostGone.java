package bellwire.soak;

/** The host's program was killed here. An error, so that nothing of it is tidied up. */
final class HostGone extends Error {
  private static final long serialVersionUID = 1L;

  HostGone() {
    super("killed", null, false, false);
  }
}
