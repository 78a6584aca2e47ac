package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * A foreign alternating voltage put between two conductors at a bad moment: relays closed,
 * excitation on, and nobody but the board's own latch to open them. P1 is driven, P2 returned into
 * the low reference, P3, P4 and M guarded.
 */
public final class ForeignVoltage {
  /** From the start of a run to the voltage's application: the board is at rest by then. */
  static final double APPLIED_SECONDS = 20e-6;

  static final double RUN_SECONDS = 2.2e-3;

  /** Below it no relay's MOSFET conducts: its threshold in parts.lib is 2 V. */
  private static final double GATE_VOLTS = 1.9;

  private static final double HERTZ = 60;
  private static final Set<String> PORTS = Set.of("P1", "P2", "P3", "P4", "M");
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
          "relay-feed",
          "taps");

  /**
   * Where, how much and when.
   *
   * @param degrees phase of the sine at the moment of application
   */
  public record Case(String plus, String minus, double peakVolts, double degrees) {
    @Override
    public String toString() {
      return String.format(
          Locale.ROOT, "%s to %s, %.1f V peak at %.0f degrees", plus, minus, peakVolts, degrees);
    }
  }

  private final Netlist netlist;
  private final Corner corner;

  public ForeignVoltage(Netlist netlist, BoardDescription board) {
    this.netlist = netlist;
    corner = new Corner(board, false);
  }

  public static List<Case> cases() {
    List<Case> cases = new ArrayList<>();
    for (String[] pair :
        new String[][] {
          {"P1", "P2"}, {"P3", "P4"}, {"P1", "P3"}, {"P2", "P3"}, {"P3", "M"}, {"P2", "M"}
        }) {
      for (int degrees = 0; degrees < 360; degrees += 45) {
        cases.add(new Case(pair[0], pair[1], 40, degrees));
      }
      cases.add(new Case(pair[0], pair[1], 36.8, 0));
      cases.add(new Case(pair[0], pair[1], 36.8, 90));
    }
    return cases;
  }

  Deck deck(Case how) {
    BoardDescription board = corner.board();
    Deck deck = Deck.of(netlist, part -> BLOCKS.contains(part.block()), PORTS, corner::value);
    deck.source("VP", corner.high());
    deck.source("VN", corner.low());
    deck.source("WIN_ON", corner.high());
    deck.source("TL_N", corner.high());
    // The latch: set once the line that any comparator takes down is below half of the supply.
    deck.line("Blatch 0 latch I=(v(trip_any,vn)<0.5*v(vp,vn)) ? 1m : 0");
    deck.line("Clatch latch 0 50p");
    deck.line("Rlatch latch 0 1e9");
    deck.line("Vlatch ulatch 0 0.93");
    deck.line("Dlatch latch ulatch dclip");
    for (String net : List.of("EX_ON", "FEED_B")) {
      deck.line("B%s %s 0 V=v(vp)-v(vp,vn)*min(1,max(0,v(latch)))", net, Deck.node(net));
    }
    deck.line("Bfeed_n feed_n 0 V=v(vn)+v(vp,vn)*min(1,max(0,v(latch)))");
    for (int bit :
        new int[] {
          board.chainBit(0, "drive"),
          board.chainBit(1, "return"),
          board.chainBit(2, "guard"),
          board.chainBit(3, "guard"),
          board.chainBit(16, "guard"),
          board.chainBit("range-low")
        }) {
      deck.replace(BoardState.switchOf(netlist, bit), corner.value("switch-ohms"));
    }
    deck.line(
        "Vforeign fa fb SIN(0 %.9g %.9g 0 0 %.9g)",
        how.peakVolts(), HERTZ, how.degrees() - 360 * HERTZ * APPLIED_SECONDS);
    deck.line("Lforeign fa fc 1u");
    deck.line("Rforeign fc fd 0.5");
    deck.line("Sforeign fd t_%s close 0 applied", how.plus());
    deck.line("Rjoin fb t_%s 0.1", how.minus());
    deck.line("Vclose close 0 PULSE(0 1 %.9g 50n 50n 1)", APPLIED_SECONDS);
    deck.line(".model applied sw(vt=0.5 vh=0.2 ron=0.1 roff=1e9)");
    return deck;
  }

  /**
   * When things happened, in seconds from the voltage's application; infinite: never.
   *
   * @param outside a port left the window
   * @param latched the latch was set
   * @param opened every relay's gate was below its threshold for good
   */
  public record Times(double outside, double latched, double opened) {}

  /** Runs a case, and adds what it does to the parts. */
  public Times run(Path directory, Case how, Stress stress)
      throws IOException, InterruptedException {
    Path raw = directory.resolve("foreign.raw");
    Files.deleteIfExists(raw);
    List<String> control =
        List.of(
            "option reltol=1e-3",
            String.format(Locale.ROOT, "tran 1u %.9g 0 10u", RUN_SECONDS),
            "write " + raw.getFileName() + " all");
    Deck deck = deck(how);
    Ngspice.run(directory, "foreign", deck.text(how.toString(), false, control));
    if (!Files.exists(raw)) {
      throw new IOException("ngspice gave nothing for " + how);
    }
    Waves waves = Waves.read(raw);
    if (waves.seconds(waves.points() - 1) < 0.999 * RUN_SECONDS) {
      throw new IOException("ngspice stopped early: " + how);
    }
    stress.add(deck, waves, how.toString());
    return times(waves);
  }

  private Times times(Waves waves) {
    BoardDescription board = corner.board();
    double outside = Double.POSITIVE_INFINITY;
    double latched = Double.POSITIVE_INFINITY;
    double opened = 0;
    for (int i = 0; i < waves.points(); i++) {
      double now = waves.seconds(i) - APPLIED_SECONDS;
      for (String port : PORTS) {
        double volts = waves.volts(Deck.node("T_" + port), i);
        if (volts < board.limit("window-low-volts") || volts > board.limit("window-high-volts")) {
          outside = Math.min(outside, now);
        }
        double gate =
            waves.volts(Deck.node("KG_" + port), i)
                - Math.min(
                    waves.volts(Deck.node("KS_" + port), i),
                    waves.volts(Deck.node("KT_" + port), i));
        if (gate > GATE_VOLTS) {
          opened = now;
        }
      }
      if (waves.volts("latch", i) > 0.5) {
        latched = Math.min(latched, now);
      }
    }
    boolean open = opened < RUN_SECONDS - APPLIED_SECONDS - 1e-5;
    return new Times(outside, latched, open ? opened : Double.POSITIVE_INFINITY);
  }
}
