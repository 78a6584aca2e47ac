package bellwire.hardware;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The board's parts and what they are joined to, repeated blocks written out.
 *
 * @param sheets titles by number
 * @param lists the names that repeated blocks stand for
 */
public record Netlist(
    List<Part> parts, Map<Integer, String> sheets, Map<String, List<String>> lists) {
  public static final String COMMON = "COM";

  /** A pin of a part. */
  public record Pin(Part part, String name) {
    @Override
    public String toString() {
      return part.ref() + "." + name;
    }
  }

  private static final Netlist REVISION_A =
      NetlistReader.read("netlist-a.yaml", PartsList.revisionA());

  public static Netlist revisionA() {
    return REVISION_A;
  }

  public Part part(String ref) {
    return parts.stream()
        .filter(part -> part.ref().equals(ref))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("part=" + ref));
  }

  /** The pins on each net, in the order of the file. */
  public Map<String, List<Pin>> nets() {
    Map<String, List<Pin>> nets = new LinkedHashMap<>();
    for (Part part : parts) {
      part.pins()
          .forEach(
              (pin, net) -> {
                if (!net.equals(Part.OPEN)) {
                  nets.computeIfAbsent(net, name -> new ArrayList<>()).add(new Pin(part, pin));
                }
              });
    }
    return nets;
  }
}
