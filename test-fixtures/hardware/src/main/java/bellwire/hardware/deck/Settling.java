package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * How long the converter's inputs take to settle once the excitation comes on, with the longest
 * cable: two conductors, so that all the capacitance is between the driven and the returned one.
 */
public final class Settling {
  /** One conductor to all others, as the simulated bench takes it without a word (bench files). */
  private static final double FARADS_PER_METRE = 66e-12;

  private static final double METRES = 60;

  /** Of a multiplexer's output and the closed channel, from memory; the macromodel has none. */
  private static final double MULTIPLEXER_FARADS = 2.5e-10;

  private static final double START_SECONDS = 20e-6;
  private static final double RUN_SECONDS = 8e-3;
  private static final Set<String> BLOCKS =
      Set.of(
          "excitation",
          "guard-driver",
          "transimpedance",
          "references",
          "port",
          "clamp",
          "crosspoint",
          "taps");
  private static final Set<String> LEFT_OUT =
      Set.of("photovoltaic", "relay-mosfet", "relay-sense", "relay-inductor", "npn");

  /**
   * @param ohms between the two conductors
   * @param plus converter input that is read
   * @param minus input that it is read against
   */
  public record Case(String range, double ohms, String plus, String minus) {
    @Override
    public String toString() {
      return String.format(Locale.ROOT, "%s, %sohm, %s", range, spoken(ohms), plus);
    }

    private static String spoken(double ohms) {
      return ohms >= 1e6
          ? String.format(Locale.ROOT, "%.0f M", ohms / 1e6)
          : ohms >= 1e3
              ? String.format(Locale.ROOT, "%.0f k", ohms / 1e3)
              : String.format(Locale.ROOT, "%.0f ", ohms);
    }
  }

  /**
   * @param micros from the excitation's edge until the reading stays within the bound of its end
   * @param volts the reading at the end
   */
  public record Row(Case what, double micros, double volts) {}

  private final Netlist netlist;
  private final BoardDescription board;
  private final Set<String> without;

  /**
   * @param without parts that are left off the board
   */
  public Settling(Netlist netlist, BoardDescription board, Set<String> without) {
    this.netlist = netlist;
    this.board = board;
    this.without = without;
  }

  public static List<Case> cases() {
    List<Case> cases = new ArrayList<>();
    for (double ohms : new double[] {5, 700, 47e3}) {
      cases.add(new Case("low", ohms, "AIN_SENSE_A", "AIN_SENSE_B"));
      cases.add(new Case("low", ohms, "AIN_REF_HIGH", "AIN_REF_LOW"));
    }
    for (double ohms : new double[] {47e3, 7e6}) {
      cases.add(new Case("mid", ohms, "AIN_TI", "AIN_COM"));
    }
    for (double ohms : new double[] {7e6, 50e6, 1e9}) {
      cases.add(new Case("high", ohms, "AIN_TI", "AIN_COM"));
    }
    return cases;
  }

  /** How near its end a reading has to be: the converter's noise at gain 1. */
  public double boundVolts() {
    return board.nominal("converter-output-noise-volts");
  }

  private Deck deck(Case how) {
    Deck deck = Deck.of(netlist, this::takesPart, Set.of("P1", "P2", "M"), board::nominal);
    double low = -board.nominal("common-lift-volts");
    double high = board.nominal("supply-volts") + low;
    deck.source("VP", high);
    deck.source("VN", low);
    deck.source("TL_SUPPLY", low);
    deck.line("Vex_on ex_on 0 PULSE(%.9g %.9g %.9g 100n 100n 1)", low, high, START_SECONDS);
    for (String port : List.of("P1", "P2", "M")) {
      deck.line("R_relay_%s t_%s inner_%s %.9g", port, port, port, board.nominal("relay-ohms"));
      deck.line("Cs_%s t_%s 0 %.9g", port, port, board.nominal("port-stray-farads"));
    }
    for (int bit :
        new int[] {
          board.chainBit(0, "drive"),
          board.chainBit(1, "return"),
          board.chainBit(16, "guard"),
          board.chainBit("range-" + how.range())
        }) {
      deck.replace(BoardState.switchOf(netlist, bit), board.nominal("switch-ohms"));
    }
    deck.line("Cable t_p1 t_p2 %.9g", FARADS_PER_METRE * METRES);
    deck.line("Rleak t_p1 t_p2 %.9g", how.ohms());
    deck.line("Rmuxa sen_p1 sense_a %.9g", board.nominal("switch-ohms"));
    deck.line("Rmuxb sen_p2 sense_b %.9g", board.nominal("switch-ohms"));
    deck.line("Cmuxa sense_a 0 %.9g", MULTIPLEXER_FARADS);
    deck.line("Cmuxb sense_b 0 %.9g", MULTIPLEXER_FARADS);
    return deck;
  }

  public Row run(Path directory, Case how) throws IOException, InterruptedException {
    Path raw = directory.resolve("settling.raw");
    Files.deleteIfExists(raw);
    List<String> control =
        List.of(
            "option reltol=1e-6 vntol=1e-9 abstol=1e-14",
            String.format(Locale.ROOT, "tran 2u %.9g 0 4u", RUN_SECONDS),
            "write " + raw.getFileName() + " all");
    Ngspice.run(directory, "settling", deck(how).text(how.toString(), false, control));
    if (!Files.exists(raw)) {
      throw new IOException("ngspice gave nothing for " + how);
    }
    Waves waves = Waves.read(raw);
    int last = waves.points() - 1;
    double end = reading(waves, how, last);
    double settled = 0;
    for (int i = 0; i <= last; i++) {
      if (Math.abs(reading(waves, how, i) - end) > boundVolts()) {
        settled = waves.seconds(Math.min(i + 1, last)) - START_SECONDS;
      }
    }
    return new Row(how, 1e6 * Math.max(0, settled), end);
  }

  private static double reading(Waves waves, Case how, int point) {
    return waves.volts(Deck.node(how.plus()), point) - waves.volts(Deck.node(how.minus()), point);
  }

  private boolean takesPart(Part part) {
    return BLOCKS.contains(part.block())
        && !LEFT_OUT.contains(part.line().name())
        && !without.contains(part.ref());
  }

  public static String text(List<Row> rows, double boundVolts, double givenMicros) {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            """
            # Settling

            From the excitation's edge until a reading stays within %.0f µV of its end, the converter's noise at gain 1; %.0f m of
            cable, %.0f pF/m, all of it between the driven and the returned conductor. The host gives %.0f µs.

            | range, between the conductors, input | µs | V at the end |
            |---|---|---|
            """,
            1e6 * boundVolts,
            METRES,
            1e12 * FARADS_PER_METRE,
            givenMicros));
    rows.stream()
        .sorted((a, b) -> Double.compare(b.micros(), a.micros()))
        .forEach(
            row ->
                out.append(
                    String.format(
                        Locale.ROOT,
                        "| %s | %.0f | %.4f |%n",
                        row.what(),
                        row.micros(),
                        row.volts())));
    return out.toString();
  }
}
