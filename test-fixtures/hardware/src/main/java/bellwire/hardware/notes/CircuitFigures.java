package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.board.BoardDescription.SpiDevice;
import bellwire.board.CodedPlug;
import bellwire.hardware.notes.Induced.Behind;
import java.util.List;

/** Protection, isolation, the metal clip, the plugs, the header: plain arithmetic on the data. */
final class CircuitFigures {
  private static final double PEAK_VOLTS = 40;

  /** A diode of the clamps and the rail that it ends at. */
  private static final double CLAMPED_VOLTS = 2.6;

  private static final double MAINS_VOLTS = 230;
  private static final double MAINS_HERTZ = 50;

  /** Annealed copper at 20 °C, 20 and 18 AWG: NBS Circular 31, ohm a metre. */
  private static final double AWG_20_OHMS_PER_METRE = 33.31e-3;

  private static final double AWG_18_OHMS_PER_METRE = 20.95e-3;

  /** What the host calls driven: bellwire.analysis.survey.Foreign. */
  private static final double DRIVEN_SHARE = 0.3;

  /** Copper across the slot: a guess, common practice. */
  private static final double COPPER_FARADS = 5e-12;

  private CircuitFigures() {}

  static void add(Figures figures) {
    protection(figures, figures.board());
    isolation(figures, figures.board());
    metal(figures, new Induced(figures.board()));
    plug(figures, CodedPlug.nominal());
    for (String device : List.of("converter", "expanders", "crosspoint")) {
      SpiDevice spi = figures.board().spi(device);
      figures.add("clock-" + device, spi.hertz(), 1e6, "MHz", 0);
    }
  }

  private static void protection(Figures figures, BoardDescription board) {
    figures.add("limit-amps", board.limit("conductor-amps"), 1e-3, "mA", 1);
    figures.add("limit-volts", board.limit("conductor-volts"), 1, "V", 1);
    figures.add("foreign-rms", board.limit("call-volts"), 1, "V", 0);
    double divider = figures.nominal("divider-top-ohms") + figures.nominal("divider-bottom-ohms");
    figures.add("divider-ohms", divider, 1e6, "Mohm", 2);
    figures.add("divider-amps", PEAK_VOLTS / divider, 1e-6, "µA", 0);
    double tap = figures.nominal("sense-tap-ohms");
    double tapAmps = (PEAK_VOLTS - CLAMPED_VOLTS) / tap;
    figures.add("tap-ohms", tap, 1e3, "kohm", 0);
    figures.add("tap-amps", tapAmps, 1e-3, "mA", 1);
    figures.add("tap-watts", tapAmps * tapAmps * tap, 1e-3, "mW", 0);
    double load = figures.nominal("test-load-ohms");
    double volts = board.limit("call-volts");
    figures.add("test-load-ohms", load, 1e3, "kohm", 0);
    figures.add("test-load-amps", volts / load, 1e-3, "mA", 1);
    figures.add("test-load-watts", volts * volts / load, 1e-3, "mW", 0);
    figures.add("relay-open", board.limit("relay-open-micros"), 1, "µs", 0);
    figures.add("mosfet-joules", figures.rating("Q401_P1", "joules"), "J", 2);
    figures.add("heartbeat-open", board.limit("heartbeat-open-micros"), 1e3, "ms", 0);
    figures.add("crowbar-most", figures.most("crowbar-volts"), 1, "V", 2);
  }

  private static void isolation(Figures figures, BoardDescription board) {
    figures.add("divider-rating", figures.rating("R405_P1", "volts"), 1, "V", 0);
    figures.add("mosfet-rating", figures.rating("Q401_P1", "volts"), 1, "V", 0);
    double file = figures.nominal("barrier-farads");
    double supply = figures.barrierFarads(figures.partOf("U101"));
    double callSupply = figures.barrierFarads(figures.partOf("U1201"));
    double isolators = figures.barrierFarads("isolator");
    double call = figures.barrierFarads("optocoupler") + figures.barrierFarads("solid-state-relay");
    double through = call * callSupply / (call + callSupply);
    figures.add("barrier-file", file, 1e-12, "pF", 0);
    figures.add("barrier-supply", supply, 1e-12, "pF", 0);
    figures.add("barrier-isolators", isolators, 1e-12, "pF", 0);
    figures.add("barrier-call", call, 1e-12, "pF", 0);
    figures.add("barrier-through-call", through, 1e-12, "pF", 0);
    double all = supply + isolators + through + COPPER_FARADS;
    figures.add("barrier-all", all, 1e-12, "pF", 0);
    figures.add("barrier-earthed", all - through + call, 1e-12, "pF", 0);
    double amps = 2 * Math.PI * MAINS_HERTZ * file * MAINS_VOLTS;
    figures.add("barrier-amps", amps, 1e-6, "µA", 1);
  }

  private static void metal(Figures figures, Induced induced) {
    double farads = 22e-12;
    figures.add(
        "induced-22pf-alone",
        induced.volts(MAINS_VOLTS, MAINS_HERTZ, Behind.FARADS, farads, false),
        1,
        "V",
        1);
    figures.add(
        "induced-22pf-loaded",
        induced.volts(MAINS_VOLTS, MAINS_HERTZ, Behind.FARADS, farads, true),
        1e-3,
        "mV",
        0);
    figures.add("driven-ohms", induced.ohmsKeeping(DRIVEN_SHARE), 1e3, "kohm", 0);
    figures.add("driven-farads", induced.faradsKeeping(DRIVEN_SHARE, 60), 1e-9, "nF", 0);
    figures.add("test-load-seen", induced.loadedOhms(), 1e3, "kohm", 1);
  }

  private static void plug(Figures figures, CodedPlug plug) {
    int last = CodedPlug.POSITIONS;
    double least = plug.armOhms(1);
    double largest = plug.armOhms(last);
    figures.add("plug-step", PlugTable.smallestStepOhms(plug), 1, "ohm", 0);
    figures.add("plug-copper", 2 * 60 * AWG_20_OHMS_PER_METRE, 1, "ohm", 1);
    figures.add("plug-least", least, 1, "ohm", 1);
    figures.add("plug-largest", largest, 1, "ohm", 0);
    double before = plug.armOhms(last - 1);
    double loop = largest + before;
    double all = loop + figures.nominal("limiter-ohms") + figures.nominal("low-reference-ohms");
    figures.add("plug-reading", figures.nominal("excitation-volts") * loop / all, 1, "V", 1);
    figures.text("plug-tolerance", Engineering.fixed(100 * plug.tolerance(), 2) + " %");
    figures.text("plug-tempco", Engineering.fixed(plug.ppmPerKelvin(), 0) + " ppm/K");
    figures.add("plug-five-metres", 5 * AWG_18_OHMS_PER_METRE, 1, "ohm", 2);
    figures.add("plug-tolerance-most", PlugTable.toleranceOhms(plug, last), 1e-3, "mohm", 0);
    figures.add("plug-drift-most", PlugTable.driftOhms(plug, last), 1e-3, "mohm", 0);
    figures.add("plug-kelvin", PlugTable.KELVIN, 1, "K", 0);
    double drive = figures.most("excitation-volts") / figures.least("limiter-ohms");
    figures.add("short-amps", drive, 1e-3, "mA", 1);
    // Most power goes into an arm that equals what is in series with it.
    double series = figures.least("limiter-ohms");
    double heat = Math.pow(figures.most("excitation-volts"), 2) / (4 * series);
    figures.add("plug-heat", heat, 1e-3, "mW", 1);
  }
}
