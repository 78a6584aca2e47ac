package bellwire.analysis.survey;

import java.util.List;
import java.util.Locale;

/**
 * A voltage on the cable that is not the board's own.
 *
 * @param a one port; the positive one of two where it is DC
 * @param b the other; −1 when only the first stands out
 * @param volts root mean square between them, nothing connected
 * @param loadedVolts the same with the test load on every port
 * @param alternating whether it alternates
 * @param alike other ports that stand at the voltage of one of the two, as something joins them
 */
public record Foreign(
    int a, int b, double volts, double loadedVolts, boolean alternating, List<Integer> alike) {

  /**
   * Share of the voltage that a source of low impedance keeps under the test load, at the least.
   */
  private static final double KEPT = 0.3;

  public Foreign {
    alike = List.copyOf(alike);
  }

  /** Something with a low impedance stands behind it; otherwise it is induced, or hardly fed. */
  public boolean driven() {
    return loadedVolts > KEPT * volts;
  }

  public String words() {
    String plus = alternating ? "" : " (+)";
    String where =
        b < 0 ? "on " + Ports.name(a) : "between " + Ports.name(a) + plus + " and " + Ports.name(b);
    String kind = alternating ? " V AC " : " V DC ";
    String joined =
        alike.isEmpty()
            ? ""
            : "; joined to one of them by the far end or a fault: " + Ports.names(alike);
    return String.format(Locale.ROOT, volts < 1 ? "%.2f" : "%.1f", volts)
        + kind
        + where
        + ", "
        + source()
        + joined;
  }

  private String source() {
    if (driven()) {
      return "driven: it stays under the test load";
    }
    String falls =
        String.format(Locale.ROOT, "it falls to %.2f V under the test load", loadedVolts);
    return (alternating ? "induced by a cable nearby: " : "fed through a high resistance: ")
        + falls;
  }
}
