package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import java.util.Locale;

/**
 * What a board terminal shows of a voltage behind a capacitance or a resistance, with the relays
 * open and with the test load on. Board common is held at the other end of the source, as by M on
 * earthed metal: the most that can be. Below it, the barrier's capacitance is in series.
 */
final class Induced {
  private final double dividerOhms;
  private final double loadedOhms;

  /** A source behind an impedance. */
  enum Behind {
    FARADS,
    OHMS
  }

  Induced(BoardDescription board) {
    dividerOhms = board.nominal("divider-top-ohms") + board.nominal("divider-bottom-ohms");
    double load = board.nominal("test-load-ohms");
    loadedOhms = load * dividerOhms / (load + dividerOhms);
  }

  double dividerOhms() {
    return dividerOhms;
  }

  double loadedOhms() {
    return loadedOhms;
  }

  /** Volts rms at the terminal. */
  double volts(double source, double hertz, Behind behind, double size, boolean loaded) {
    double ohms = loaded ? loadedOhms : dividerOhms;
    if (behind == Behind.OHMS) {
      return source * ohms / (ohms + size);
    }
    double reactance = 1 / (2 * Math.PI * hertz * size);
    return source * ohms / Math.hypot(ohms, reactance);
  }

  /** The source resistance up to which so large a share of the voltage is left under the load. */
  double ohmsKeeping(double share) {
    double low = 0;
    double high = 1e9;
    for (int i = 0; i < 200; i++) {
      double middle = (low + high) / 2;
      double kept =
          volts(1, 0, Behind.OHMS, middle, true) / volts(1, 0, Behind.OHMS, middle, false);
      if (kept > share) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** The capacitance from which on that share is left. */
  double faradsKeeping(double share, double hertz) {
    double low = 1e-12;
    double high = 1e-3;
    for (int i = 0; i < 200; i++) {
      double middle = Math.sqrt(low * high);
      double kept =
          volts(1, hertz, Behind.FARADS, middle, true)
              / volts(1, hertz, Behind.FARADS, middle, false);
      if (kept > share) {
        high = middle;
      } else {
        low = middle;
      }
    }
    return low;
  }

  String table() {
    StringBuilder out = new StringBuilder();
    out.append(
        String.format(
            Locale.ROOT,
            """
            # Induced and driven

            At a terminal, rms, relays open: alone, into %s of the interlock's divider, and with the test load, %s in all. The
            current is what the test load then carries. Board common is joined to the source's other end, as by M on earthed metal.

            | source | behind | alone | with the test load | current | left |
            |---|---|---|---|---|---|
            """,
            Engineering.text(dividerOhms, "ohm", 3),
            Engineering.text(loadedOhms, "ohm", 3)));
    for (double farads : new double[] {1e-12, 3e-12, 6e-12, 22e-12, 100e-12, 1e-9}) {
      row(out, 120, 60, Behind.FARADS, farads);
      row(out, 230, 50, Behind.FARADS, farads);
    }
    for (double ohms : new double[] {1, 1e3, 22e3, 100e3, 1e6}) {
      row(out, 24, 60, Behind.OHMS, ohms);
    }
    return out.toString();
  }

  private void row(StringBuilder out, double source, double hertz, Behind behind, double size) {
    double alone = volts(source, hertz, behind, size, false);
    double loaded = volts(source, hertz, behind, size, true);
    out.append(
        String.format(
            Locale.ROOT,
            "| %.0f V, %.0f Hz | %s | %s | %s | %s | %s %% |%n",
            source,
            hertz,
            Engineering.text(size, behind == Behind.FARADS ? "F" : "ohm", 3),
            Engineering.text(alone, "V", 3),
            Engineering.text(loaded, "V", 3),
            Engineering.text(loaded / loadedOhms, "A", 3),
            Engineering.fixed(100 * loaded / alone, loaded < 0.1 * alone ? 1 : 0)));
  }
}
