package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/**
 * What a meter of 10 Mohm shows at the test points and at a few other places, in the states that
 * the bring-up sets: of the nominal board, and of boards drawn within their parts' spreads. Volts
 * against board common, of the call sense against XC.
 */
public final class BenchReadings {
  public static final double METER_OHMS = 1e7;

  private static final Set<String> BLOCKS =
      Set.of(
          "excitation",
          "guard-driver",
          "transimpedance",
          "references",
          "port",
          "clamp",
          "crosspoint",
          "interlock-port",
          "interlock",
          "watchdog",
          "relay-feed",
          "event-port",
          "event",
          "call-sense",
          "call-lead");

  /** A port's relay, which at rest is one resistance; and what stores or indicates only. */
  private static final Set<String> LEFT_OUT =
      Set.of("relay-mosfet", "relay-sense", "relay-inductor", "npn", "tvs", "photovoltaic");

  private static final Set<String> DRAWN =
      Set.of("resistor", "reference", "amplifier", "shunt-regulator", "comparator-open");

  /** Of two resistors of 0.2 % each, by the share that each has in their ratio. */
  private static final double LIFT_DIVIDER_SPREAD = 0.003;

  private static final double OPEN_OHMS = 1e12;
  private static final double CLOSED_OHMS = 1e-3;
  private static final double OUTSIDE_VOLTS = 1.5;

  /** What a bench supply is put behind when it goes onto a terminal. */
  public static final double SERIES_OHMS = 1e4;

  /** What the guard driver is made to take in: the event path's current of all conductors. */
  public static final double SUNK_AMPS = 3.2e-3;

  /**
   * @param place a net, or {@code amps} for the current out of P1 into common
   */
  public record Key(String state, String place) {}

  /**
   * @param lowest of the drawn boards
   */
  public record Reading(double nominal, double lowest, double highest) {}

  private final BoardDescription board;
  private final Netlist netlist;
  private final Spread spread;
  private final Deck deck;
  private final List<String> printed = new ArrayList<>();
  private final List<BoardState> states = new ArrayList<>();
  private final double high;
  private final double low;

  public BenchReadings(Netlist netlist, BoardDescription board, long seed) {
    this.netlist = netlist;
    this.board = board;
    spread = new Spread(board, new Random(seed));
    high = board.nominal("supply-volts") - board.nominal("common-lift-volts");
    low = -board.nominal("common-lift-volts");
    deck =
        Deck.of(netlist, BenchReadings::takesPart, Set.of("P1", "P2", "M", "X1"), board::nominal);
    sources();
    meters();
    states();
  }

  private static boolean takesPart(Part part) {
    return BLOCKS.contains(part.block()) && !LEFT_OUT.contains(part.line().name());
  }

  private void sources() {
    deck.source("VP", high);
    deck.source("VN", low);
    deck.source("VCP", 5);
    deck.source("VCN", -5);
    deck.line("Rxc xc 0 1m");
    for (String net : List.of("EX_ON", "WIN_ASK", "WET_ON", "HEARTBEAT", "HB_EDGE", "FEED_B")) {
      deck.source(net, low);
    }
    deck.source("CALL_WET", 0);
    for (String net : List.of("FEED_N", "TL_N")) {
      deck.source(net, high);
    }
    for (String port : List.of("P1", "P2", "M")) {
      deck.line(
          "R_relay_%s %s %s %.9g", port, "t_" + lower(port), "inner_" + lower(port), OPEN_OHMS);
    }
    deck.line("V_foreign foreign 0 0");
    deck.line("R_foreign foreign t_p1 %.9g", OPEN_OHMS);
    deck.line("V_ammeter ammeter 0 0");
    deck.line("R_short t_p1 ammeter %.9g", OPEN_OHMS);
    deck.line("V_sunk sunk 0 0");
    deck.line("R_sunk sunk guard %.9g", OPEN_OHMS);
  }

  private void meters() {
    for (Part part : netlist.parts()) {
      if (part.line().name().equals("test-point") && deck.hasNode(Deck.node(part.net("1")))) {
        printed.add(Deck.node(part.net("1")));
      }
    }
    printed.remove("0");
    printed.addAll(List.of("ex_mid", "t_p1"));
    for (String node : printed) {
      deck.line("R_meter_%s %s 0 %.9g", node, node, METER_OHMS);
    }
  }

  private static String lower(String port) {
    return port.toLowerCase(Locale.ROOT);
  }

  private void states() {
    double closed = board.nominal("switch-ohms");
    state("rest", Map.of());
    Map<String, Double> check = new LinkedHashMap<>(excited());
    check.put(bit("check-low"), closed);
    check.put(bit("range-low"), closed);
    state("check-low", check);
    check = new LinkedHashMap<>(excited());
    check.put(bit("check-high"), closed);
    check.put(bit("range-high"), closed);
    state("check-high", check);
    Map<String, Double> driven = new LinkedHashMap<>(excited());
    driven.put(BoardState.switchOf(netlist, board.chainBit(0, "drive")), closed);
    state("driven, relays open", driven);
    driven.put("R_relay_P1", board.nominal("relay-ohms"));
    state("driven", driven);
    Map<String, Double> shorted = new LinkedHashMap<>(driven);
    shorted.put("R_short", CLOSED_OHMS);
    state("shorted", shorted);
    state("outside", Map.of("V_foreign", OUTSIDE_VOLTS, "R_foreign", SERIES_OHMS));
    double sinkVolts = 10;
    state("sinking", Map.of("V_sunk", sinkVolts, "R_sunk", sinkVolts / SUNK_AMPS));
    state("dry", Map.of("V_CALL_WET", 5.0));
  }

  private Map<String, Double> excited() {
    return Map.of("V_EX_ON", high, "V_WIN_ASK", high);
  }

  private String bit(String name) {
    return BoardState.switchOf(netlist, board.chainBit(name));
  }

  private void state(String name, Map<String, Double> elements) {
    states.add(new BoardState(name, Map.copyOf(elements)));
  }

  /**
   * @param boards how many to draw beside the nominal one
   */
  public Map<Key, Reading> run(Path directory, int boards)
      throws IOException, InterruptedException {
    List<String> control = new ArrayList<>();
    looks(control);
    for (int b = 0; b < boards; b++) {
      for (Part part : deck.parts()) {
        if (DRAWN.contains(part.line().kind())) {
          spread.draw(part, control);
        }
      }
      rails(control);
      looks(control);
    }
    List<String> names = new ArrayList<>();
    printed.forEach(node -> names.add("v(" + node + ")"));
    names.add("i(v_ammeter)");
    String output = Ngspice.run(directory, "readings", deck.text("readings", true, control));
    return readings(Printed.rows(output, names, states.size() * (boards + 1)));
  }

  /** The supply, and the share of it that common stands above its lower rail. */
  private void rails(List<String> control) {
    BoardDescription.Value supply = board.value("supply-volts");
    BoardDescription.Value lift = board.value("common-lift-volts");
    double volts = supply.nominal() + spread.within(supply.tolerance());
    double lower =
        volts * lift.nominal() / supply.nominal() * (1 + spread.within(LIFT_DIVIDER_SPREAD));
    Spread.alter("v_vp", volts - lower, control);
    Spread.alter("v_vn", -lower, control);
  }

  private void looks(List<String> control) {
    for (BoardState state : states) {
      state.elements().forEach((element, value) -> Spread.alter(element, value, control));
      control.add("op");
      printed.forEach(node -> control.add("print v(" + node + ")"));
      control.add("print i(v_ammeter)");
      control.add("destroy all");
      state.elements().keySet().forEach(e -> Spread.alter(e, deck.value(e), control));
    }
  }

  private Map<Key, Reading> readings(List<double[]> rows) {
    Map<Key, Reading> readings = new LinkedHashMap<>();
    for (int s = 0; s < states.size(); s++) {
      for (int p = 0; p <= printed.size(); p++) {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int row = s; row < rows.size(); row += states.size()) {
          lowest = Math.min(lowest, rows.get(row)[p]);
          highest = Math.max(highest, rows.get(row)[p]);
        }
        String place = p < printed.size() ? printed.get(p) : "amps";
        readings.put(
            new Key(states.get(s).name(), place), new Reading(rows.get(s)[p], lowest, highest));
      }
    }
    return readings;
  }
}
