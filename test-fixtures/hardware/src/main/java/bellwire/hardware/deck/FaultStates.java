package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The states that the single faults are tried in: P1 driven, P2 returned, P3 and M guarded. */
final class FaultStates {
  /** Logic levels that the deck takes as given. */
  static final List<String> LEVELS = List.of("EX_ON", "TL_SUPPLY");

  private static final Set<String> BLOCKS =
      Set.of(
          "excitation",
          "guard-driver",
          "transimpedance",
          "references",
          "port",
          "clamp",
          "crosspoint",
          "event-port",
          "event");

  /** A port's relay, which at rest is one resistance, and what reads only. */
  private static final Set<String> LEFT_OUT =
      Set.of("photovoltaic", "relay-mosfet", "relay-sense", "relay-inductor", "npn", "comparator");

  private static final int OTHERS = 12;
  private static final int DRIVEN = 0;
  private static final int RETURNED = 1;
  private static final int GUARDED = 2;
  private static final int METAL = 16;

  private final BoardDescription board;
  private final Netlist netlist;
  private final Corner corner;
  private final List<String> ports;
  private final double high;
  private final double low;
  private final List<BoardState> states = new ArrayList<>();
  private boolean wetted;

  private FaultStates(Netlist netlist, Corner corner, List<String> ports) {
    this.netlist = netlist;
    this.corner = corner;
    this.ports = ports;
    board = corner.board();
    high = corner.high();
    low = corner.low();
  }

  static boolean takesPart(Part part) {
    return BLOCKS.contains(part.block()) && !LEFT_OUT.contains(part.line().name());
  }

  static List<BoardState> all(Netlist netlist, Corner corner, List<String> ports) {
    FaultStates make = new FaultStates(netlist, corner, ports);
    for (String range : List.of("low", "mid", "high")) {
      make.add("range " + range + " driving", make.withRange(range), true, true, false);
    }
    make.add("range low at rest", make.withRange("low"), false, true, false);
    make.add("all guarded", make.guarded(), false, true, false);
    make.wetted = true;
    make.add("event path, P1 and M held", make.held(), false, true, false);
    make.wetted = false;
    make.add("charging through 10 Mohm", make.charging(), true, true, false);
    make.add("relays open, test load", List.of(), false, false, true);
    return make.states;
  }

  /** All wetting resistors on their supply: four ports' in the deck, twelve as one. */
  static Map<String, Double> wetting(Netlist netlist, Corner corner) {
    Map<String, Double> elements = new LinkedHashMap<>();
    for (int port = 0; port < 4; port++) {
      elements.put(
          "R_" + netlist.part("U1051").ref() + "_" + (port + 1), corner.value("switch-ohms"));
    }
    elements.put("R_others", corner.value("event-wetting-ohms") / OTHERS);
    return elements;
  }

  private List<Integer> roles() {
    List<Integer> closed = new ArrayList<>();
    closed.add(board.chainBit(DRIVEN, "drive"));
    closed.add(board.chainBit(RETURNED, "return"));
    closed.add(board.chainBit(GUARDED, "guard"));
    closed.add(board.chainBit(METAL, "guard"));
    return closed;
  }

  private List<Integer> guarded() {
    List<Integer> closed = new ArrayList<>();
    for (int port : new int[] {DRIVEN, RETURNED, GUARDED, METAL}) {
      closed.add(board.chainBit(port, "guard"));
    }
    return closed;
  }

  private List<Integer> held() {
    return List.of(board.chainBit(DRIVEN, "guard"), board.chainBit(METAL, "guard"));
  }

  private List<Integer> withRange(String range) {
    List<Integer> closed = roles();
    closed.add(board.chainBit("range-" + range));
    return closed;
  }

  /** P2 hangs on the return bus, which the high check resistor pulls up. */
  private List<Integer> charging() {
    List<Integer> closed = new ArrayList<>();
    closed.add(board.chainBit(RETURNED, "return"));
    closed.add(board.chainBit(GUARDED, "guard"));
    closed.add(board.chainBit(METAL, "guard"));
    closed.add(board.chainBit("check-high"));
    return closed;
  }

  private void add(
      String name, List<Integer> closed, boolean excite, boolean relays, boolean testLoad) {
    Map<String, Double> elements = new LinkedHashMap<>();
    for (int bit : closed) {
      elements.put(BoardState.switchOf(netlist, bit), corner.value("switch-ohms"));
    }
    for (String port : relays ? ports : List.<String>of()) {
      elements.put("R_relay_" + port, corner.value("relay-ohms"));
    }
    // The reference, at the end of what the excitation is allowed.
    elements.put(
        "V_U201_flt",
        2.048 * (corner.value("excitation-volts") / board.nominal("excitation-volts") - 1));
    elements.put("V_EX_ON", excite ? high : low);
    if (wetted) {
      elements.putAll(wetting(netlist, corner));
    }
    elements.put("V_TL_SUPPLY", testLoad ? high : low);
    states.add(new BoardState(name, elements));
  }
}
