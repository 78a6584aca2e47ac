package bellwire.hardware.deck;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** The single faults as a table, the worst first. */
public final class FaultTable {
  /** Faults that add less than this to what the sound board does are counted, not listed. */
  private static final double NOTABLE = 1.01;

  private FaultTable() {}

  /**
   * @param all the sound board first, see {@link FaultStudy#faults()}
   */
  public static List<FaultStudy.Worst> notable(List<FaultStudy.Worst> all) {
    FaultStudy.Worst sound = all.get(0);
    List<FaultStudy.Worst> rows = new ArrayList<>();
    for (FaultStudy.Worst worst : all) {
      if (worst == sound
          || worst.amps() > NOTABLE * sound.amps()
          || worst.volts() > NOTABLE * sound.volts()) {
        rows.add(worst);
      }
    }
    rows.sort(Comparator.comparingDouble(FaultStudy.Worst::amps).reversed());
    return rows;
  }

  public static String text(List<FaultStudy.Worst> all) {
    List<FaultStudy.Worst> rows = notable(all);
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Single faults: what the board drives into a conductor

        Limits: 5.5 mA in a conductor, 3.6 V between two conductors or one and common. Tolerances at the end that gives
        more, both rails at once. Each fault in each state of the board, with each two conductors joined, all joined,
        and none. P1 is driven, P2 returned, P3 and M guarded, P4 on nothing, P5 to P16 on nothing and joined to whatever is
        joined; at rest, after the microseconds in which stray and cable capacitance change their charge. An amplifier
        whose input is open ends at one of its rails.

        | fault | mA | in | V | in |
        |---|---|---|---|---|
        """);
    rows.forEach(row -> out.append(row(row)).append('\n'));
    out.append('\n').append(rest(all, rows)).append('\n');
    return out.toString();
  }

  /** One line of the table, without its end. */
  public static String row(FaultStudy.Worst worst) {
    return String.format(
        Locale.ROOT,
        "| %s | %.2f | %s | %.2f | %s |",
        worst.fault(),
        1000 * worst.amps(),
        worst.ampsWhere(),
        worst.volts(),
        worst.voltsWhere());
  }

  private static String rest(List<FaultStudy.Worst> all, List<FaultStudy.Worst> rows) {
    Set<String> parts = new LinkedHashSet<>();
    for (FaultStudy.Worst worst : all) {
      if (!rows.contains(worst)) {
        parts.add(worst.fault().part().replaceFirst("[_ ](P[0-9]+|M)$", ""));
      }
    }
    return String.format(
        Locale.ROOT,
        "The other %d faults add less than 1 %% to the sound board or take away. They are of: %s.",
        all.size() - rows.size(),
        String.join(", ", parts));
  }
}
