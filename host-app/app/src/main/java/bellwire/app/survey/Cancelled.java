package bellwire.app.survey;

/** The person stopped it. */
public final class Cancelled extends RuntimeException {
  private static final long serialVersionUID = 1L;

  public Cancelled() {
    super("stopped on request");
  }
}
