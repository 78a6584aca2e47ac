package bellwire.app.visit;

/**
 * Changes that are not in the job file yet, and wait for room.
 *
 * @param changes how many; 0 once all are in the file
 * @param why what the file said, with the remedy; empty where none waits
 */
public record Unkept(int changes, String why) {
  static final Unkept NONE = new Unkept(0, "");
}
