package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.board.BoardDescription.Value;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import bellwire.hardware.ValueExpression;
import java.util.LinkedHashMap;
import java.util.Map;

/** The figures of the pages by name, each as it is printed. */
final class Figures {
  private final Map<String, String> texts = new LinkedHashMap<>();
  private final BoardDescription board;
  private final Netlist netlist;

  Figures(Netlist netlist, BoardDescription board) {
    this.netlist = netlist;
    this.board = board;
  }

  Map<String, String> texts() {
    return Map.copyOf(texts);
  }

  BoardDescription board() {
    return board;
  }

  double nominal(String value) {
    return board.nominal(value);
  }

  double least(String value) {
    Value of = board.value(value);
    return of.nominal() - of.tolerance();
  }

  double most(String value) {
    Value of = board.value(value);
    return of.nominal() + of.tolerance();
  }

  /** The value of a part on the board. */
  double part(String ref) {
    ValueExpression value = netlist.part(ref).value();
    if (value == null) {
      throw new IllegalArgumentException("no value=" + ref);
    }
    return value.of(board::nominal);
  }

  double rating(String ref, String name) {
    Double rating = netlist.part(ref).line().ratings().get(name);
    if (rating == null) {
      throw new IllegalArgumentException("part=" + ref + " rating=" + name);
    }
    return rating;
  }

  double barrierFarads(String kind) {
    return netlist.parts().stream()
        .filter(part -> part.line().kind().equals(kind))
        .mapToDouble(part -> part.line().barrierFarads())
        .sum();
  }

  double barrierFarads(Part part) {
    return part.line().barrierFarads();
  }

  Part partOf(String ref) {
    return netlist.part(ref);
  }

  /** With a prefix of thousands. */
  void add(String name, double value, String unit, int digits) {
    text(name, Engineering.text(value, unit, digits));
  }

  /** In a unit that is a power of ten of SI's, with so many decimals. */
  void add(String name, double value, double scale, String unit, int decimals) {
    text(name, Engineering.fixed(value / scale, decimals) + " " + unit);
  }

  void range(String name, double low, double high, double scale, String unit, int decimals) {
    text(
        name,
        Engineering.fixed(low / scale, decimals)
            + " to "
            + Engineering.fixed(high / scale, decimals)
            + " "
            + unit);
  }

  void text(String name, String text) {
    if (texts.put(name, text) != null) {
      throw new IllegalStateException("figure twice=" + name);
    }
  }
}
