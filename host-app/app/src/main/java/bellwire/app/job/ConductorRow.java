package bellwire.app.job;

/**
 * One conductor of a cable.
 *
 * @param cable its cable's key
 * @param port where it is clamped, 0 for P1 to 15 for P16
 * @param nearColour its insulation at the equipment
 * @param farColour its insulation at the wall; another one behind a splice; empty where not known
 */
public record ConductorRow(long cable, int port, String nearColour, String farColour, String note) {
  static final int PORTS = 16;

  public ConductorRow {
    if (port < 0 || port >= PORTS) {
      throw new IllegalArgumentException("no such port: port=" + port);
    }
  }
}
