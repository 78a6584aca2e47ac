package bellwire.hardware.deck;

import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What the board can drive into a conductor, sound and with each single fault: the board in each of
 * its states, with a cable whose conductors are joined in each way, and the current in each
 * conductor and the voltages between them at rest.
 */
public final class FaultStudy {
  /** Ports in the deck by what they do; the others would be as P3 or P4. */
  static final List<String> PORTS = List.of("P1", "P2", "P3", "P4", "M");

  /** A single fault. Empty: none. */
  public record Fault(String part, String what, Map<String, Double> altered) {
    @Override
    public String toString() {
      return part.isEmpty() ? "none" : part + " " + what;
    }
  }

  /**
   * The worst that a fault does.
   *
   * @param amps the largest current in a conductor
   * @param volts the largest voltage between two conductors, or one and common, with nothing joined
   */
  public record Worst(
      Fault fault, double amps, String ampsWhere, double volts, String voltsWhere) {}

  private record Wiring(String name, Set<String> joined) {}

  private static final int PROCESSES = 4;
  static final double OPEN_OHMS = 1e11;

  /** A case has to exceed another by so much to be named instead. */
  private static final double MORE = 1.001;

  private static final double JOINED_OHMS = 1e-3;
  private static final double APART_OHMS = 1e12;
  private static final Pattern PRINTED = Pattern.compile("^(\\S+) = (\\S+)$");

  private final Netlist netlist;
  private final Corner corner;
  private final Deck deck;
  private final List<BoardState> states;
  private final List<Wiring> wirings = new ArrayList<>();

  public FaultStudy(Netlist netlist, Corner corner) {
    this.netlist = netlist;
    this.corner = corner;
    deck = Deck.of(netlist, FaultStates::takesPart, Set.copyOf(PORTS), corner::value);
    states = FaultStates.all(netlist, corner, PORTS);
    deck.source("VP", corner.high());
    deck.source("VN", corner.low());
    FaultStates.LEVELS.forEach(net -> deck.source(net, 0));
    for (String port : PORTS) {
      deck.line("R_relay_%s t_%s inner_%s %.9g", port, port, port, OPEN_OHMS);
      deck.line("V_w_%s t_%s fw_%s 0", port, port, port);
      deck.line("R_w_%s fw_%s far %.9g", port, port, APART_OHMS);
    }
    // The other twelve conductors, by their wetting resistors, on whatever is joined.
    deck.line("R_others wet far %.9g", OPEN_OHMS);
    wirings.add(new Wiring("nothing joined", Set.of()));
    for (int a = 0; a < PORTS.size(); a++) {
      for (int b = a + 1; b < PORTS.size(); b++) {
        wirings.add(
            new Wiring(
                PORTS.get(a) + " and " + PORTS.get(b) + " joined",
                Set.of(PORTS.get(a), PORTS.get(b))));
      }
    }
    wirings.add(new Wiring("all joined", Set.copyOf(PORTS)));
  }

  /** Every single fault of every part in the deck and of the supply, the sound board first. */
  public List<Fault> faults() {
    List<Fault> faults = new ArrayList<>();
    faults.add(new Fault("", "", Map.of()));
    for (Part part : deck.parts()) {
      part.line()
          .faults()
          .forEach(
              (what, altered) -> {
                Map<String, Double> elements = new LinkedHashMap<>();
                altered.forEach((name, value) -> elements.put(of(part, name), value));
                if (deck.elements().keySet().containsAll(elements.keySet())) {
                  faults.add(new Fault(part.ref(), what, elements));
                }
              });
    }
    for (String port : PORTS) {
      Map<String, Double> closed = Map.of("R_relay_" + port, corner.value("relay-ohms"));
      faults.add(new Fault("relay " + port, "stuck closed", closed));
      faults.add(new Fault("relay " + port, "stuck open", Map.of("R_relay_" + port, OPEN_OHMS)));
    }
    faults.add(new Fault("U618", "wetting stuck on", FaultStates.wetting(netlist, corner)));
    for (String net : FaultStates.LEVELS) {
      faults.add(new Fault("U617, U618", net + " stuck high", Map.of("V_" + net, corner.high())));
      faults.add(new Fault("U617, U618", net + " stuck low", Map.of("V_" + net, corner.low())));
    }
    corner.supplyFaults().forEach((what, volts) -> faults.add(new Fault("supply", what, volts)));
    return faults;
  }

  private static String of(Part part, String element) {
    return element.replace("<ref>", part.ref());
  }

  /**
   * The worst of each fault, over states and wirings, in the order given; four processes at most.
   */
  public List<Worst> run(Path directory, List<Fault> faults)
      throws IOException, InterruptedException {
    int size = (faults.size() + PROCESSES - 1) / PROCESSES;
    ExecutorService threads = Executors.newFixedThreadPool(PROCESSES);
    try {
      List<Future<List<Worst>>> runs = new ArrayList<>();
      for (int from = 0; from < faults.size(); from += size) {
        String name = "faults" + from;
        List<Fault> share = faults.subList(from, Math.min(from + size, faults.size()));
        runs.add(threads.submit(() -> share(directory, name, share)));
      }
      List<Worst> worst = new ArrayList<>();
      for (Future<List<Worst>> run : runs) {
        worst.addAll(run.get());
      }
      return worst;
    } catch (ExecutionException e) {
      throw new IOException(e.getCause());
    } finally {
      threads.shutdownNow();
    }
  }

  private List<Worst> share(Path directory, String name, List<Fault> faults)
      throws IOException, InterruptedException {
    List<String> control = new ArrayList<>();
    for (Fault fault : faults) {
      for (BoardState state : states) {
        one(fault, state, control);
      }
    }
    String output = Ngspice.run(directory, name, deck.text("single faults", true, control));
    return worst(faults, output);
  }

  private void one(Fault fault, BoardState state, List<String> control) {
    Map<String, Double> altered = new LinkedHashMap<>(state.elements());
    altered.putAll(fault.altered());
    altered.forEach((element, value) -> control.add(alter(element, value)));
    for (Wiring wiring : wirings) {
      for (String port : PORTS) {
        control.add(
            alter("R_w_" + port, wiring.joined().contains(port) ? JOINED_OHMS : APART_OHMS));
      }
      control.add("op");
      for (String port : PORTS) {
        control.add("print i(v_w_" + port + ") v(t_" + port + ")");
      }
      control.add("destroy all");
    }
    altered.keySet().forEach(element -> control.add(alter(element, deck.value(element))));
  }

  private static String alter(String element, double value) {
    return String.format(
        Locale.ROOT,
        "alter %s%s = %.6g",
        element.toLowerCase(Locale.ROOT),
        element.startsWith("D_") ? " area" : "",
        value);
  }

  private List<Worst> worst(List<Fault> faults, String output) throws IOException {
    List<double[]> printed = values(output);
    int cases = faults.size() * states.size() * wirings.size();
    if (printed.size() != cases * PORTS.size()) {
      throw new IOException("ngspice solved " + printed.size() / PORTS.size() + " of " + cases);
    }
    List<Worst> all = new ArrayList<>();
    int at = 0;
    for (Fault fault : faults) {
      Tally tally = new Tally(fault);
      for (BoardState state : states) {
        for (Wiring wiring : wirings) {
          tally.add(state, wiring.name(), printed.subList(at, at + PORTS.size()));
          at += PORTS.size();
        }
      }
      all.add(tally.worst());
    }
    return all;
  }

  /** Current and voltage of a port each. */
  private static List<double[]> values(String output) throws IOException {
    List<double[]> values = new ArrayList<>();
    double amps = Double.NaN;
    for (String line : output.split("\n")) {
      Matcher printed = PRINTED.matcher(line.strip());
      if (!printed.matches()) {
        continue;
      }
      double value = Double.parseDouble(printed.group(2));
      if (printed.group(1).startsWith("i(")) {
        amps = value;
      } else {
        values.add(new double[] {amps, value});
        amps = Double.NaN;
      }
      if (!Double.isFinite(value)) {
        throw new IOException("ngspice printed " + line);
      }
    }
    return values;
  }

  /** Keeps the largest current and voltage, and where they were. */
  private static final class Tally {
    private final Fault fault;
    private double amps;
    private String ampsWhere = "";
    private double volts;
    private String voltsWhere = "";

    Tally(Fault fault) {
      this.fault = fault;
    }

    void add(BoardState state, String wiring, List<double[]> ports) {
      double low = 0;
      double high = 0;
      for (int p = 0; p < ports.size(); p++) {
        low = Math.min(low, ports.get(p)[1]);
        high = Math.max(high, ports.get(p)[1]);
        if (Math.abs(ports.get(p)[0]) > MORE * amps) {
          amps = Math.abs(ports.get(p)[0]);
          ampsWhere = PORTS.get(p) + ", " + state.name() + ", " + wiring;
        }
      }
      if (high - low > MORE * volts) {
        volts = high - low;
        voltsWhere = state.name() + ", " + wiring;
      }
    }

    Worst worst() {
      return new Worst(fault, amps, ampsWhere, volts, voltsWhere);
    }
  }
}
