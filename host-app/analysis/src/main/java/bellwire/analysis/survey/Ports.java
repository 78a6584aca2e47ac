package bellwire.analysis.survey;

import java.util.ArrayList;
import java.util.List;

/**
 * Names and masks of the board's ports: 0 is P1, 15 is P16, 16 is M. A port that a probe neither
 * drives nor returns is held at common wherever that does no harm, an empty one too: copper that
 * floats beside driven copper follows its steps, beyond the interlock's window.
 */
public final class Ports {
  public static final int COUNT = 17;
  public static final int METAL = 16;

  /** All ports, M among them. */
  public static final int ALL = (1 << COUNT) - 1;

  private Ports() {}

  public static String name(int port) {
    return port == METAL ? "M" : "P" + (port + 1);
  }

  /** "P1", "P1 and P4", "P1, P4 and M". */
  public static String names(List<Integer> ports) {
    StringBuilder out = new StringBuilder();
    for (int k = 0; k < ports.size(); k++) {
      out.append(k == 0 ? "" : k == ports.size() - 1 ? " and " : ", ").append(name(ports.get(k)));
    }
    return out.toString();
  }

  public static int bit(int port) {
    return 1 << port;
  }

  public static int mask(List<Integer> ports) {
    int mask = 0;
    for (int port : ports) {
      mask |= bit(port);
    }
    return mask;
  }

  public static List<Integer> list(int mask) {
    List<Integer> ports = new ArrayList<>();
    for (int port = 0; port < COUNT; port++) {
      if ((mask & bit(port)) != 0) {
        ports.add(port);
      }
    }
    return ports;
  }
}
