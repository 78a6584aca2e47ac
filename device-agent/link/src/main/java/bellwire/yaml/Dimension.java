package bellwire.yaml;

import java.util.LinkedHashMap;
import java.util.Map;

/** Kinds of quantity a file holds, with the units people write and their SI factors. */
public enum Dimension {
  LENGTH("24.5 m", "m", 1.0, "ft", 0.3048),
  RESISTANCE("0.4 ohm", "ohm", 1.0, "mohm", 1e-3, "kohm", 1e3, "Mohm", 1e6),
  CAPACITANCE_PER_LENGTH("66 pF/m", "pF/m", 1e-12, "nF/km", 1e-12, "pF/ft", 1e-12 / 0.3048),
  CAPACITANCE("22 pF", "pF", 1e-12, "nF", 1e-9, "uF", 1e-6),
  INDUCTANCE("0.25 H", "H", 1.0, "mH", 1e-3),
  TIME("20 s", "s", 1.0, "ms", 1e-3, "min", 60.0, "us", 1e-6, "h", 3600.0),
  VOLTAGE("5 mV", "V", 1.0, "mV", 1e-3),
  FREQUENCY("60 Hz", "Hz", 1.0),
  CURRENT("0.3 nA", "nA", 1e-9, "pA", 1e-12),
  AMPERAGE("3 A", "A", 1.0, "mA", 1e-3),
  APPARENT_POWER("40 VA", "VA", 1.0),
  TEMPERATURE_DIFFERENCE("3 K", "K", 1.0),
  TEMPERATURE_RATE("2 K/h", "K/h", 1.0),
  FRACTION("0.5 %", "%", 1e-2, "ppm", 1e-6);

  private final String example;
  private final Map<String, Double> factors = new LinkedHashMap<>();

  Dimension(String example, Object... unitsAndFactors) {
    this.example = example;
    for (int i = 0; i < unitsAndFactors.length; i += 2) {
      factors.put((String) unitsAndFactors[i], (Double) unitsAndFactors[i + 1]);
    }
  }

  public String example() {
    return example;
  }

  public String units() {
    return String.join(", ", factors.keySet());
  }

  /** SI factor of a unit, NaN for one that does not belong here. */
  public double factor(String unit) {
    return factors.getOrDefault(unit, Double.NaN);
  }

  /** Factor of a number written without its unit: only where one unit has factor 1. */
  public boolean acceptsBare() {
    return this != FRACTION && factors.containsValue(1.0) && this != LENGTH && this != TIME;
  }
}
