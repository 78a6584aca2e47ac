package bellwire.hardware.deck;

import bellwire.hardware.Netlist;
import java.util.Map;

/**
 * How the board is switched in a deck.
 *
 * @param name for tables
 * @param elements the deck's elements that differ from a board with everything open and off
 */
record BoardState(String name, Map<String, Double> elements) {

  /** The deck's element for the switch of a bit of the crosspoint chain. */
  static String switchOf(Netlist netlist, int bit) {
    return "R_" + netlist.part("U50" + (bit / 8 + 1)).ref() + "_" + (bit % 8 + 1);
  }
}
