package bellwire.app.report;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Ports as a person types them: {@code P1=red,P2=white,P4-P6}.
 *
 * @param mask bit 0 for P1 to bit 15 for P16
 * @param colours by port, for those that have one
 */
public record PortList(int mask, Map<Integer, String> colours) {
  private static final int PORTS = 16;

  /** Empty when the text can't be read, names a port twice or one that doesn't exist. */
  public static Optional<PortList> parse(String text) {
    int mask = 0;
    Map<Integer, String> colours = new LinkedHashMap<>();
    if (text.isBlank()) {
      return Optional.of(new PortList(0, colours));
    }
    for (String part : text.split(",", -1)) {
      String[] halves = part.split("=", 2);
      String[] ends = halves[0].split("-", 2);
      int from = port(ends[0]);
      int to = port(ends[ends.length - 1]);
      if (from < 0 || to < from || (halves.length > 1 && from != to)) {
        return Optional.empty();
      }
      for (int port = from; port <= to; port++) {
        if ((mask & (1 << port)) != 0) {
          return Optional.empty();
        }
        mask |= 1 << port;
      }
      if (halves.length > 1 && !halves[1].isBlank()) {
        colours.put(from, halves[1].trim());
      }
    }
    return Optional.of(new PortList(mask, colours));
  }

  private static int port(String text) {
    String name = text.trim().toUpperCase(Locale.ROOT);
    if (!name.matches("P[0-9]{1,2}")) {
      return -1;
    }
    int number = Integer.parseInt(name.substring(1));
    return number >= 1 && number <= PORTS ? number - 1 : -1;
  }
}
