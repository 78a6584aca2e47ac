package bellwire.hardware.sheet;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** All sheets read back, beside what the netlist says of them. */
final class DrawnBoard {
  private static final DrawnBoard REVISION_A = new DrawnBoard();

  private final Map<String, String> svg =
      new Sheets(Netlist.revisionA(), BoardDescription.revisionA()).svg();
  private final Map<String, DrawnSheet> sheets = new LinkedHashMap<>();
  private final Map<String, Set<String>> sheetsOf = new TreeMap<>();

  private DrawnBoard() {
    svg.forEach((name, text) -> sheets.put(name, new DrawnSheet(text)));
  }

  static DrawnBoard revisionA() {
    return REVISION_A;
  }

  /** As drawn now, by the file's name. */
  Map<String, String> svg() {
    return svg;
  }

  Map<String, DrawnSheet> sheets() {
    return sheets;
  }

  /** The net of each part and pin, repeated blocks once. */
  Map<String, String> nets() {
    Map<String, String> nets = new TreeMap<>();
    for (Part part : Netlist.revisionA().parts()) {
      part.pins()
          .forEach(
              (pin, net) -> nets.put(template(part.ref(), part) + " " + pin, template(net, part)));
    }
    return nets;
  }

  /** The sheets that pins of a net are on, found by the parts that are drawn there. */
  Set<String> sheetsOf(String net) {
    if (sheetsOf.isEmpty()) {
      Map<String, String> at = pinSheets();
      for (Part part : Netlist.revisionA().parts()) {
        part.pins()
            .forEach(
                (pin, name) -> {
                  String sheet = at.getOrDefault(template(part.ref(), part) + " " + pin, "none");
                  for (String key : List.of(name, name.replaceAll("_([PX][0-9]+|M)$", "_{p}"))) {
                    sheetsOf.computeIfAbsent(key, k -> new TreeSet<>()).add(sheet);
                  }
                });
      }
    }
    return sheetsOf.getOrDefault(net, Set.of());
  }

  private Map<String, String> pinSheets() {
    Map<String, String> at = new TreeMap<>();
    sheets.forEach(
        (name, sheet) -> {
          for (DrawnSheet.Stroke stroke : sheet.strokes("part")) {
            if (!stroke.pin().isEmpty()) {
              at.put(
                  ref(stroke.owner()) + " " + stroke.pin(),
                  name.replaceAll("sheet-(.*).svg", "$1"));
            }
          }
        });
    return at;
  }

  static String template(String name, Part part) {
    String end = "_" + part.instance();
    return part.instance() != null && name.endsWith(end)
        ? name.substring(0, name.length() - end.length()) + "_{p}"
        : name;
  }

  static String ref(String key) {
    return key.split("\\.", 2)[0];
  }

  static String unitless(String pin) {
    String[] words = pin.split(" ", 2);
    return ref(words[0]) + " " + words[1];
  }
}
