package bellwire.hardware.sheet;

import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The netlist by drawn sheets: a repeated block once, with {@code {p}} for its names. */
final class SheetNets {
  static final String INSTANCE = "{p}";

  /**
   * A part, or a unit of one, on a sheet.
   *
   * @param key as in {@code sheets-a.yaml}: designator, then a point and the unit
   * @param part the first one of a repeated block
   */
  record Drawn(String key, Part part, String unit, SheetPlan.Place place) {
    String net(String pin) {
      return template(part.net(pin), part.instance());
    }
  }

  private final Netlist netlist;
  private final Map<String, Set<String>> sheetsOfNet = new LinkedHashMap<>();
  private final Map<String, Set<String>> sheetsOfPart = new LinkedHashMap<>();
  private final Map<String, Part> byTemplate = new LinkedHashMap<>();

  SheetNets(Netlist netlist, List<SheetPlan> plans, SymbolLibrary library) {
    this.netlist = netlist;
    Map<String, List<Part>> instances = new LinkedHashMap<>();
    for (Part part : netlist.parts()) {
      String template = template(part.ref(), part.instance());
      byTemplate.putIfAbsent(template, part);
      instances.computeIfAbsent(template, key -> new ArrayList<>()).add(part);
    }
    for (SheetPlan plan : plans) {
      for (Drawn drawn : parts(plan)) {
        sheetsOfPart
            .computeIfAbsent(ref(drawn.key()), ref -> new LinkedHashSet<>())
            .add(plan.name());
        Symbol symbol =
            library.symbol(drawn.part().line(), drawn.unit(), Orientation.UPRIGHT, 0, 0);
        for (Part part : instances.getOrDefault(ref(drawn.key()), List.of())) {
          for (Symbol.Pin pin : symbol.pins()) {
            sheetsOfNet
                .computeIfAbsent(part.net(pin.name()), net -> new LinkedHashSet<>())
                .add(plan.name());
          }
        }
      }
    }
  }

  List<Drawn> parts(SheetPlan plan) {
    List<Drawn> parts = new ArrayList<>();
    plan.parts()
        .forEach(
            (key, place) -> {
              Part part = byTemplate.get(ref(key));
              if (part == null || part.sheet() != plan.number()) {
                throw new IllegalArgumentException(
                    "sheets-a.yaml: sheet=" + plan.name() + " part=" + key);
              }
              String unit =
                  key.length() > ref(key).length() ? key.substring(ref(key).length() + 1) : "";
              parts.add(new Drawn(key, part, unit, place));
            });
    return parts;
  }

  /** The sheets that a part is on. */
  Set<String> sheets(Part part) {
    return sheetsOfPart.getOrDefault(template(part.ref(), part.instance()), Set.of());
  }

  /** The other sheets that a net of this one goes to. */
  Set<String> elsewhere(String net, SheetPlan plan) {
    Set<String> sheets = new TreeSet<>(SheetNets::compare);
    if (net.contains(INSTANCE)) {
      for (List<String> names : netlist.lists().values()) {
        names.forEach(
            name -> sheets.addAll(sheetsOfNet.getOrDefault(net.replace(INSTANCE, name), Set.of())));
      }
    } else {
      sheets.addAll(sheetsOfNet.getOrDefault(net, Set.of()));
    }
    sheets.remove(plan.name());
    return sheets;
  }

  /** The names that a sheet's repeated blocks stand for. */
  Set<String> repeats(SheetPlan plan) {
    Set<String> texts = new LinkedHashSet<>();
    for (Drawn drawn : parts(plan)) {
      for (List<String> names : netlist.lists().values()) {
        if (drawn.part().instance() != null
            && count(drawn) == names.size()
            && names.contains(drawn.part().instance())) {
          texts.add(
              INSTANCE
                  + " is each of "
                  + range(names)
                  + ": the parts with it are on the board "
                  + names.size()
                  + " times.");
        }
      }
    }
    return texts;
  }

  private long count(Drawn drawn) {
    String ref = ref(drawn.key());
    return netlist.parts().stream()
        .filter(part -> template(part.ref(), part.instance()).equals(ref))
        .count();
  }

  private static String range(List<String> names) {
    String last = names.get(names.size() - 1);
    boolean odd = last.length() == 1;
    String end = odd ? names.get(names.size() - 2) + " and " + last : last;
    return names.get(0) + " to " + end;
  }

  static String ref(String key) {
    int point = key.indexOf('.');
    return point < 0 ? key : key.substring(0, point);
  }

  /** The name with {@code {p}} in place of the instance that it ends in. */
  static String template(String name, @Nullable String instance) {
    return instance != null && name.endsWith("_" + instance)
        ? name.substring(0, name.length() - instance.length()) + INSTANCE
        : name;
  }

  static int compare(String a, String b) {
    return Double.compare(Double.parseDouble(a), Double.parseDouble(b));
  }
}
