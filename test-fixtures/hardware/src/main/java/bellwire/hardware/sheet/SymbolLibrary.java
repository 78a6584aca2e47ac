package bellwire.hardware.sheet;

import bellwire.hardware.PartLine;

/** The symbol of each kind of part. Two-pin parts and transistors after IEC 60617, from memory. */
final class SymbolLibrary {
  private final SheetsFile file;

  SymbolLibrary(SheetsFile file) {
    this.file = file;
  }

  /**
   * @param unit of a part that is drawn as several; empty: the whole part
   */
  Symbol symbol(PartLine line, String unit, Orientation orientation, int x, int y) {
    ChipShape shape = file.chip(line.name(), line.kind()).get(unit);
    if (shape != null) {
      ChipShape turned = orientation.quarters() == 2 ? shape.turned() : shape;
      return turned.symbol().turned(Orientation.UPRIGHT, x, y);
    }
    if (line.kind().equals("amplifier") || line.kind().startsWith("comparator")) {
      boolean comparator = line.kind().startsWith("comparator");
      boolean open = line.kind().endsWith("open");
      return ActiveSymbols.amplifier(comparator, open, orientation.mirrored())
          .turned(new Orientation(orientation.quarters(), false), x, y);
    }
    return drawn(line, unit).turned(orientation, x, y);
  }

  private static Symbol drawn(PartLine line, String unit) {
    if (!unit.isEmpty()) {
      throw without(line, unit);
    }
    return switch (line.kind()) {
      case "resistor" ->
          line.pins().size() == 4 ? TwoPinSymbols.fourTerminalResistor() : TwoPinSymbols.resistor();
      case "capacitor" -> TwoPinSymbols.capacitor();
      case "inductor" -> TwoPinSymbols.inductor();
      case "diode" -> TwoPinSymbols.diode(line.spice().equals("dschottky"));
      case "clamp" -> TwoPinSymbols.clamp();
      case "fuse" -> TwoPinSymbols.fuse();
      case "mosfet" -> ActiveSymbols.mosfet(line.spice().startsWith("p"));
      case "bipolar" -> ActiveSymbols.bipolar(line.spice().startsWith("p"));
      case "shunt-regulator" -> ActiveSymbols.shuntRegulator();
      case "photovoltaic" -> ActiveSymbols.photovoltaic();
      case "solid-state-relay" -> ActiveSymbols.solidStateRelay();
      case "optocoupler" -> ActiveSymbols.optocoupler();
      case "connector" -> ActiveSymbols.terminal();
      default -> throw without(line, unit);
    };
  }

  private static IllegalArgumentException without(PartLine line, String unit) {
    return new IllegalArgumentException(
        "sheets-a.yaml: chips: line=" + line.name() + " kind=" + line.kind() + " unit=" + unit);
  }
}
