package bellwire.hardware.deck;

import bellwire.board.BoardDescription;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;

/**
 * A corner of the tolerances.
 *
 * @param worst every value that limits a current at its low end and every voltage at its high end;
 *     otherwise all at their nominal value
 */
public record Corner(BoardDescription board, boolean worst) {
  private static final Set<String> HIGH = Set.of("excitation-volts", "event-wetting-volts");

  /** A named value in this corner. */
  public double value(String name) {
    BoardDescription.Value value = board.value(name);
    if (!worst) {
      return value.nominal();
    }
    return value.nominal() + (HIGH.contains(name) ? value.tolerance() : -value.tolerance());
  }

  /** The upper rail against common; in the worst corner both rails are further away at once. */
  public double high() {
    return of("supply-volts", 1) - of("common-lift-volts", -1);
  }

  /** The lower rail against common. */
  public double low() {
    return -of("common-lift-volts", 1);
  }

  /** Faults of the supply, and of the amplifier that makes common: the rails they leave. */
  public Map<String, Map<String, Double>> supplyFaults() {
    double supply = of("supply-volts", 1);
    double crowbar = of("crowbar-volts", 1);
    double lift = board.nominal("common-lift-volts");
    Map<String, Map<String, Double>> faults = new LinkedHashMap<>();
    faults.put("high, held by the crowbar", rails(crowbar - lift, low()));
    faults.put("absent", rails(0, 0));
    faults.put("common stuck at the upper rail", rails(0, -supply));
    faults.put("common stuck at the lower rail", rails(supply, 0));
    return faults;
  }

  private static Map<String, Double> rails(double high, double low) {
    Map<String, Double> rails = new LinkedHashMap<>();
    rails.put("V_VP", high);
    rails.put("V_VN", low);
    return rails;
  }

  private double of(String name, int side) {
    BoardDescription.Value value = board.value(name);
    return value.nominal() + (worst ? side * value.tolerance() : 0);
  }
}
