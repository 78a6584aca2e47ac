package bellwire.simbench.cable;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Numbers and names of a bench's nodes: the board's are fixed, the cable's follow. */
final class Nodes {
  static final int PORTS = 17;
  static final int METAL_PORT = 16;
  static final int DRIVE = 2 * PORTS;
  static final int RETURN = DRIVE + 1;
  static final int GUARD = DRIVE + 2;
  static final int EARTH = DRIVE + 3;

  private final List<String> names = new ArrayList<>();

  Nodes() {
    for (int p = 0; p < PORTS; p++) {
      names.add("t" + portName(p));
    }
    for (int p = 0; p < PORTS; p++) {
      names.add("n" + portName(p));
    }
    names.addAll(List.of("drive", "return", "guard", "earth"));
  }

  static int terminal(int port) {
    return port;
  }

  /** Behind the relay, where the crosspoint begins. */
  static int inner(int port) {
    return PORTS + port;
  }

  static String portName(int port) {
    return port == METAL_PORT ? "m" : Integer.toString(port + 1);
  }

  int add(String name) {
    names.add(name);
    return names.size() - 1;
  }

  int count() {
    return names.size();
  }

  List<String> names() {
    return Collections.unmodifiableList(names);
  }
}
