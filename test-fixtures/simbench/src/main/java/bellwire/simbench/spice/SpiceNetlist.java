package bellwire.simbench.spice;

import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.Drive;
import bellwire.simbench.circuit.Inductor;
import bellwire.simbench.circuit.Netlist;
import java.util.Locale;

/**
 * Writes a circuit as a SPICE netlist, element for element as the solver has it: the transimpedance
 * stage as its equal conductance and capacitance at the return bus, and the solver's 1e-13 S from
 * every node to common. The diodes across the stage's feedback are not in it: they move its output
 * alone. Voltages are against node 0, board common.
 */
public final class SpiceNetlist {

  /** What to compute. */
  public sealed interface Analysis {}

  /** The constant sources alone. */
  public record AtRest() implements Analysis {}

  /** One tone's phasors, peak volts. */
  public record Tone(int tone) implements Analysis {}

  /**
   * A stretch of time.
   *
   * @param fromNanos where it begins, which sets the tones' phases
   * @param nodes node numbers that begin with a voltage
   * @param volts theirs
   * @param amps currents that the windings begin with, in their order
   */
  public record Transient(
      long fromNanos,
      double stepSeconds,
      double stopSeconds,
      int[] nodes,
      double[] volts,
      double[] amps)
      implements Analysis {}

  private final Circuit circuit;
  private final boolean excited;
  private final StringBuilder out = new StringBuilder();
  private int count;
  private int windings;

  private SpiceNetlist(Circuit circuit, boolean excited) {
    this.circuit = circuit;
    this.excited = excited;
  }

  /**
   * @param title first line
   * @param excited whether the excitation stands at its voltage
   * @return a netlist with its analysis, without control lines
   */
  public static String write(String title, Circuit circuit, boolean excited, Analysis analysis) {
    return new SpiceNetlist(circuit, excited).all(title, analysis);
  }

  private String all(String title, Analysis analysis) {
    out.append("* ").append(title.replaceAll("\\s+", " ")).append('\n');
    long from = analysis instanceof Transient t ? t.fromNanos() : 0;
    int acTone = analysis instanceof Tone t ? t.tone() : -1;
    for (Circuit.Element element : circuit.elements()) {
      count++;
      if (element instanceof Circuit.Resistor r) {
        line("R%d %s %s %.17g", count, name(r.a()), name(r.b()), r.ohms());
      } else if (element instanceof Circuit.Capacitor c) {
        if (c.a() != c.b() && c.farads() > 0) {
          line("C%d %s %s %.17g", count, name(c.a()), name(c.b()), c.farads());
        }
      } else if (element instanceof Circuit.Winding w) {
        winding(w.inductor(), analysis);
      } else if (element instanceof Circuit.Diode d) {
        // As the solver has it: open up to the forward voltage, a resistance from there on.
        String across = "v(" + name(d.anode()) + ")-v(" + name(d.cathode()) + ")";
        line(
            "B%d %s %s I=(%s)>%.17g ? (%s-%.17g)/%.17g : 0",
            count,
            name(d.anode()),
            name(d.cathode()),
            across,
            d.volts(),
            across,
            d.volts(),
            d.ohms());
      } else if (element instanceof Circuit.Injection i) {
        line("I%d 0 %s DC %.17g", count, name(i.into()), i.amps());
      } else if (element instanceof Circuit.Emf e) {
        source("s" + count, name(e.minus()), e.drive(), from, acTone);
        line("R%d s%d %s %.17g", count, count, name(e.plus()), e.ohms());
      } else if (element instanceof Circuit.Coupling c) {
        source("s" + count, name(c.reference()), c.drive(), from, acTone);
        line("C%d s%d %s %.17g", count, count, name(c.node()), c.farads());
        if (analysis instanceof Transient t) {
          double volts = volts(t, c.reference()) + now(c.drive(), t.fromNanos());
          line(".ic v(s%d)=%.17g", count, volts);
        }
      }
    }
    for (String node : circuit.nodeNames()) {
      line("Rgmin_%s %s 0 %.17g", node, node, 1 / Circuit.GMIN_SIEMENS);
    }
    analyse(analysis);
    line(".end");
    return out.toString();
  }

  private void winding(Inductor w, Analysis analysis) {
    String start = "";
    if (analysis instanceof Transient t) {
      start = format(" ic=%.17g", t.amps()[windings]);
    }
    windings++;
    line("R%d %s s%d %.17g", count, name(w.a()), count, w.ohms());
    line("L%d s%d %s %.17g%s", count, count, name(w.b()), w.henries(), start);
  }

  /** A voltage source from a node of its own to the reference. */
  private void source(String node, String reference, Drive drive, long fromNanos, int acTone) {
    String wave;
    if (drive.tone() == Drive.DC) {
      wave = format("DC %.17g", drive.re());
    } else if (drive.tone() == Drive.EXCITATION) {
      wave = format("DC %.17g", excited ? drive.re() : 0.0);
    } else {
      double omega = circuit.omegas()[drive.tone()];
      double peak = Math.hypot(drive.re(), drive.im());
      double degrees = Math.toDegrees(Math.atan2(drive.im(), drive.re()));
      double now = Math.toDegrees(Math.IEEEremainder(omega * fromNanos * 1e-9, 2 * Math.PI));
      wave =
          format(
              "DC 0 AC %.17g %.17g SIN(0 %.17g %.17g 0 0 %.17g)",
              drive.tone() == acTone ? peak : 0.0,
              degrees,
              peak,
              omega / (2 * Math.PI),
              degrees + now + 90);
    }
    line("V%d %s %s %s", count, node, reference, wave);
  }

  private static double volts(Transient start, int node) {
    for (int i = 0; i < start.nodes().length; i++) {
      if (start.nodes()[i] == node) {
        return start.volts()[i];
      }
    }
    return 0;
  }

  private double now(Drive drive, long nanos) {
    if (drive.tone() < 0) {
      return drive.re();
    }
    double angle = circuit.omegas()[drive.tone()] * nanos * 1e-9;
    return drive.re() * Math.cos(angle) - drive.im() * Math.sin(angle);
  }

  private void analyse(Analysis analysis) {
    line(".options reltol=1e-6 abstol=1e-18 vntol=1e-12 chgtol=1e-20 gmin=1e-20 method=gear");
    if (analysis instanceof AtRest) {
      line(".op");
    } else if (analysis instanceof Tone t) {
      double hertz = circuit.omegas()[t.tone()] / (2 * Math.PI);
      line(".ac lin 1 %.17g %.17g", hertz, hertz);
    } else if (analysis instanceof Transient t) {
      for (int i = 0; i < t.nodes().length; i++) {
        line(".ic v(%s)=%.17g", name(t.nodes()[i]), t.volts()[i]);
      }
      line(".tran %.9g %.9g 0 %.9g uic", t.stepSeconds(), t.stopSeconds(), t.stepSeconds());
    }
  }

  private String name(int node) {
    return node == Netlist.COMMON ? "0" : circuit.nodeNames().get(node);
  }

  private static String format(String format, Object... arguments) {
    return String.format(Locale.ROOT, format, arguments);
  }

  private void line(String format, Object... arguments) {
    out.append(format(format, arguments)).append('\n');
  }
}
