package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import bellwire.hardware.ValueExpression;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * What the board takes of each of its supplies, state by state: the chips by the most that the
 * parts list gives them, the light-emitting diodes and resistors by the netlist's values, supplies
 * high.
 */
public final class PowerBudget {

  /** What the board does at a time. */
  public enum State {
    REST("relays open"),
    SURVEY("survey"),
    LOOK("look for voltage, test load"),
    VIGIL("vigil of the cable"),
    CALLS("rehearsal, 24 V: 16 calls, 8 loads"),
    DRY("rehearsal, dry: 16 closed, wetting"),
    ALL("relays, calls, loads at once");

    final String title;

    State(String title) {
      this.title = title;
    }
  }

  private static final Set<State> ALWAYS = EnumSet.allOf(State.class);
  private static final Set<State> CONNECTED = EnumSet.of(State.SURVEY, State.VIGIL, State.ALL);
  private static final Set<State> CALLING = EnumSet.of(State.CALLS, State.DRY, State.ALL);

  /** Of the call sense's two supplies, high. */
  private static final double CALL_VOLTS = 5.25;

  /** What saturated comparator, optocoupler and the like leave: from memory, at the least. */
  private static final double SATURATED_VOLTS = 0.1;

  private static final int LOADS = 8;

  /** A resistor below this feeds something that has a line of its own. */
  private static final double LEAST_OHMS = 1000;

  /**
   * @param supply net
   * @param what in words
   */
  public record Draw(String supply, String what, double amps, Set<State> when) {}

  private final Netlist netlist;
  private final BoardDescription board;
  private final double supplyVolts;
  private final List<Draw> draws = new ArrayList<>();

  public PowerBudget(Netlist netlist, BoardDescription board) {
    this.netlist = netlist;
    this.board = board;
    BoardDescription.Value supply = board.value("supply-volts");
    supplyVolts = supply.nominal() + supply.tolerance();
    chips();
    diodes();
    resistors();
    signals();
  }

  public List<Draw> draws() {
    return List.copyOf(draws);
  }

  public double amps(String supply, State state) {
    return draws.stream()
        .filter(d -> d.supply().equals(supply) && d.when().contains(state))
        .mapToDouble(Draw::amps)
        .sum();
  }

  private void add(String supply, String what, double amps, Set<State> when) {
    draws.add(new Draw(supply, what, amps, when));
  }

  private void chips() {
    Map<String, Map<String, Double>> byBlock = new LinkedHashMap<>();
    for (Part part : netlist.parts()) {
      Double amps = part.line().draws().get("amps");
      if (amps == null) {
        continue;
      }
      part.pins().values().stream()
          .filter(Set.of("VP", "VCP", "VCN", "PI_3V3")::contains)
          .filter(net -> feeds(part, net))
          .distinct()
          .forEach(
              net ->
                  byBlock
                      .computeIfAbsent(net, n -> new LinkedHashMap<>())
                      .merge(part.block(), amps, Double::sum));
    }
    byBlock.forEach(
        (net, blocks) ->
            blocks.forEach((block, amps) -> add(net, "chips: " + block, amps, ALWAYS)));
    add("VP", "regulator", drawn("U102", "amps"), ALWAYS);
  }

  /** Whether a net is on a supply pin of the part, and not on an input tied to it. */
  private static boolean feeds(Part part, String net) {
    return part.pins().entrySet().stream()
        .anyMatch(
            pin ->
                pin.getValue().equals(net)
                    && pin.getKey().matches("V\\+|V-|VDD[12]?|VCC|AVDD|IN")
                    && !(pin.getKey().equals("IN") && part.line().kind().equals("changeover")));
  }

  private void diodes() {
    Map<String, Double> sums = new LinkedHashMap<>();
    Map<String, Integer> counts = new LinkedHashMap<>();
    for (Part part : netlist.parts()) {
      Double led = part.line().draws().get("led-volts");
      if (led == null) {
        continue;
      }
      boolean call = onCallSide(part);
      double across = call ? 2 * CALL_VOLTS : supplyVolts;
      String key = part.block() + " " + part.line().name();
      sums.merge(key, (across - led - SATURATED_VOLTS) / seriesOhms(part), Double::sum);
      counts.merge(key, 1, Integer::sum);
    }
    double load =
        sum(sums, "call-lead call-relay") / counts.getOrDefault("call-lead call-relay", 1);
    add("VP", "relays' diodes", sum(sums, "port photovoltaic"), CONNECTED);
    add("VP", "test load's diodes", sum(sums, "port load-relay"), EnumSet.of(State.LOOK));
    add("VP", "dummy loads' diodes", LOADS * load, EnumSet.of(State.CALLS, State.ALL));
    double wetting = sum(sums, "call-sense call-relay") + sum(sums, "call-sense optocoupler");
    add("VP", "wetting's diodes", wetting, EnumSet.of(State.DRY));
    double leads = sum(sums, "call-lead optocoupler");
    add("VCP", "leads' diodes", leads, CALLING);
    add("VCN", "leads' diodes", leads, CALLING);
  }

  private static double sum(Map<String, Double> sums, String key) {
    Double sum = sums.get(key);
    if (sum == null) {
      throw new IllegalStateException("no diodes=" + key);
    }
    return sum;
  }

  private boolean onCallSide(Part part) {
    return series(part).pins().containsValue("VCP");
  }

  private double seriesOhms(Part part) {
    return ohms(series(part));
  }

  /** The resistor on the diode's anode. */
  private Part series(Part part) {
    String anode = part.net("A");
    return netlist.nets().getOrDefault(anode, List.of()).stream()
        .map(Netlist.Pin::part)
        .filter(other -> other.line().kind().equals("resistor"))
        .findFirst()
        .orElseThrow(() -> new IllegalStateException("no resistor at " + part.ref()));
  }

  private double ohms(Part resistor) {
    ValueExpression value = resistor.value();
    if (value == null) {
      throw new IllegalStateException("no value=" + resistor.ref());
    }
    return value.of(board::nominal);
  }

  /** Pull-ups and dividers, as if their other end stood at the lower rail. */
  private void resistors() {
    Map<String, Double> sums = new LinkedHashMap<>();
    for (Part part : netlist.parts()) {
      if (!part.line().kind().equals("resistor") || ohms(part) < LEAST_OHMS) {
        continue;
      }
      for (String supply : List.of("VP", "VCP")) {
        boolean diode = part.pins().values().stream().anyMatch(net -> net.startsWith("LA_"));
        if (part.pins().containsValue(supply) && !diode) {
          double volts = supply.equals("VP") ? supplyVolts : CALL_VOLTS;
          sums.merge(supply, volts / ohms(part), Double::sum);
        }
      }
    }
    sums.forEach((supply, amps) -> add(supply, "pull-ups and dividers", amps, ALWAYS));
    double outputs = 16 * supplyVolts / ohms(netlist.part("R1105_X1"));
    add("VP", "optocouplers' outputs", outputs, CALLING);
  }

  private void signals() {
    BoardDescription.Value excitation = board.value("excitation-volts");
    BoardDescription.Value limiter = board.value("limiter-ohms");
    double drive =
        (excitation.nominal() + excitation.tolerance()) / (limiter.nominal() - limiter.tolerance());
    add("VP", "excitation into a short", drive, EnumSet.of(State.SURVEY, State.ALL));
    BoardDescription.Value wetting = board.value("event-wetting-volts");
    BoardDescription.Value ohms = board.value("event-wetting-ohms");
    double events =
        16 * (wetting.nominal() + wetting.tolerance()) / (ohms.nominal() - ohms.tolerance());
    add("VP", "event path's wetting", events, EnumSet.of(State.VIGIL, State.ALL));
    add("VCP", "wetting, at its limit", board.limit("call-wetting-amps"), EnumSet.of(State.DRY));
  }

  /** Amperes out of the Pi's 5 V pins, through both isolated supplies. */
  public double fromPi(State state) {
    double cable = 5 * amps("VP", state) / efficiency("U101");
    double call = 5 * (amps("VCP", state) + amps("VCN", state)) / efficiency("U1201");
    return (cable + call) / 5;
  }

  private double efficiency(String ref) {
    return drawn(ref, "efficiency");
  }

  private double drawn(String ref, String name) {
    Double value = netlist.part(ref).line().draws().get(name);
    if (value == null) {
      throw new IllegalStateException("part=" + ref + " draws " + name);
    }
    return value;
  }

  /** What a supply can give, in amperes of the net. */
  public double capacityAmps(String supply) {
    return switch (supply) {
      case "VP" -> rating("U101", "watts") / 5;
      case "VCP", "VCN" -> rating("U1201", "watts") / 10;
      case "PI_5V" -> rating("F101", "holding-amps");
      default -> throw new IllegalArgumentException("supply=" + supply);
    };
  }

  double rating(String ref, String name) {
    Double rating = netlist.part(ref).line().ratings().get(name);
    if (rating == null) {
      throw new IllegalStateException("part=" + ref + " rating=" + name);
    }
    return rating;
  }

  static String milliamperes(double amps) {
    return String.format(Locale.ROOT, amps < 0.01 ? "%.1f" : "%.0f", 1000 * amps);
  }
}
