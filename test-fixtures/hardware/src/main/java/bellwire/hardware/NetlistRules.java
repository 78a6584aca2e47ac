package bellwire.hardware;

import bellwire.board.BoardDescription;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** What any netlist of the board must keep. */
public final class NetlistRules {
  private NetlistRules() {}

  /**
   * @return a sentence for each breach: a net with one pin, a pin of a part's line that is missing
   *     or unknown, a value that has no name in the board's file, a sheet without a title, a kind
   *     of part without its requirement, reason, example or alternative
   */
  public static List<String> breaches(
      Netlist netlist, PartsList partsList, BoardDescription board) {
    List<String> breaches = new ArrayList<>();
    for (Map.Entry<String, List<Netlist.Pin>> net : netlist.nets().entrySet()) {
      if (net.getValue().size() < 2) {
        breaches.add("net " + net.getKey() + " has one pin only: " + net.getValue());
      }
    }
    for (Part part : netlist.parts()) {
      pins(part, breaches);
      value(part, board, breaches);
      if (!netlist.sheets().containsKey(part.sheet())) {
        breaches.add(part.ref() + " is on sheet " + part.sheet() + ", which has no title");
      }
    }
    for (PartLine line : partsList.lines()) {
      line(line, netlist, breaches);
    }
    return breaches;
  }

  private static void pins(Part part, List<String> breaches) {
    for (String pin : part.line().pins()) {
      if (!part.pins().containsKey(pin)) {
        breaches.add(part.ref() + " lacks pin " + pin + ": give its net, or open");
      }
    }
    for (String pin : part.pins().keySet()) {
      if (!part.line().pins().contains(pin)) {
        breaches.add(part.ref() + " has a pin " + pin + " that " + part.line().name() + " has not");
      }
    }
  }

  private static void value(Part part, BoardDescription board, List<String> breaches) {
    ValueExpression value = part.value();
    boolean wanted = part.line().model().stream().anyMatch(m -> m.contains("<value>"));
    if (value == null) {
      if (wanted) {
        breaches.add(part.ref() + " has no value");
      }
      return;
    }
    try {
      if (!(value.of(board::nominal) > 0)) {
        breaches.add(part.ref() + " has the value " + value.of(board::nominal));
      }
    } catch (IllegalArgumentException e) {
      breaches.add(part.ref() + ": " + e.getMessage());
    }
  }

  private static void line(PartLine line, Netlist netlist, List<String> breaches) {
    for (String text :
        new String[] {line.requirement(), line.reason(), line.example(), line.alternative()}) {
      if (text.isBlank()) {
        breaches.add("parts-a.yaml: " + line.name() + " lacks a requirement, reason or type");
      }
    }
    if (netlist.parts().stream().noneMatch(part -> part.line().equals(line))) {
      breaches.add("parts-a.yaml: " + line.name() + " is not on the board");
    }
  }
}
