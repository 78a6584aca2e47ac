package bellwire.hardware.deck;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** A foreign voltage's times and stresses as a table, the worst first. */
public final class ForeignTable {
  private static final int SLOWEST = 6;

  /** Below it a rating is not worth a line. */
  private static final double NOTABLE_SHARE = 0.01;

  private record Timed(ForeignVoltage.Case how, ForeignVoltage.Times times) {}

  private final Stress stress = new Stress();
  private final List<Timed> runs = new ArrayList<>();

  public Stress stress() {
    return stress;
  }

  public void add(ForeignVoltage.Case how, ForeignVoltage.Times times) {
    runs.add(new Timed(how, times));
  }

  public String text() {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # 24 V alternating current on a connected board

        26 V rms (36.8 V peak) and 40 V peak, 60 Hz, 0.5 ohm and 1 µH, between two conductors while the relays are closed and
        the excitation is on; the software does nothing. 40 V in steps of 45 degrees, 26 V rms at 0 and 90; P1 driven, P2
        returned, P3, P4 and M guarded. Limits: 50 µs to the latch, 500 µs more until the relays are open, 2 ms in all.

        | case | outside the window after µs | latch after µs | relays open after µs |
        |---|---|---|---|
        """);
    runs.stream()
        .sorted(Comparator.comparingDouble((Timed run) -> run.times().opened()).reversed())
        .limit(SLOWEST)
        .forEach(
            run ->
                out.append(
                    String.format(
                        Locale.ROOT,
                        "| %s | %.1f | %.1f | %.0f |%n",
                        run.how(),
                        1e6 * run.times().outside(),
                        1e6 * run.times().latched(),
                        1e6 * run.times().opened())));
    out.append(
        String.format(
            Locale.ROOT,
            """

            The other %d cases are faster. Each kind of part against its rating, in the worst case of all:

            | part | rating | worst | allowed | share | where |
            |---|---|---|---|---|---|
            """,
            runs.size() - SLOWEST));
    stress.rows().stream()
        .filter(row -> row.share() >= NOTABLE_SHARE)
        .forEach(row -> out.append(row).append('\n'));
    out.append(
        """

        pin-volts: beyond the pin's supplies; pin-amps: in its protection diode, where it is further beyond than pin-volts
        allows. Watts are means over 2.2 ms. What is not listed stays below 1 % of its rating.
        """);
    return out.toString();
  }
}
