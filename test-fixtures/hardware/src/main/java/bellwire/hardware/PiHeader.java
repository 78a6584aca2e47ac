package bellwire.hardware;

import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The Pi's 40-pin header. Source of the positions: Raspberry Pi documentation, "GPIO and the 40-pin
 * header", as the Zephyr project's binding raspberrypi-40pins-header repeats it; of the buses'
 * lines: BCM2835 ARM Peripherals, 6.2.
 */
public final class PiHeader {
  public static final int PINS = 40;
  private static final Map<Integer, Integer> POSITIONS = new LinkedHashMap<>();

  static {
    int[][] table = {
      {2, 3}, {3, 5}, {4, 7}, {14, 8}, {15, 10}, {17, 11}, {18, 12}, {27, 13}, {22, 15}, {23, 16},
      {24, 18}, {10, 19}, {9, 21}, {25, 22}, {11, 23}, {8, 24}, {7, 26}, {0, 27}, {1, 28}, {5, 29},
      {6, 31}, {12, 32}, {13, 33}, {19, 35}, {16, 36}, {26, 37}, {20, 38}, {21, 40}
    };
    for (int[] row : table) {
      POSITIONS.put(row[0], row[1]);
    }
  }

  /** Lines of a bus: clock, data out, data in, then its chip selects. */
  private static final int[][] BUSES = {{11, 10, 9, 8, 7}, {21, 20, 19, 18, 17, 16}};

  private PiHeader() {}

  /** Position by GPIO number (BCM), all 28 of them. */
  public static Map<Integer, Integer> positions() {
    return Map.copyOf(POSITIONS);
  }

  /** The GPIO number at a position; null for supplies and common. */
  public static @Nullable Integer gpioAt(int position) {
    return POSITIONS.entrySet().stream()
        .filter(e -> e.getValue() == position)
        .map(Map.Entry::getKey)
        .findFirst()
        .orElse(null);
  }

  public static int clock(int bus) {
    return BUSES[bus][0];
  }

  public static int dataOut(int bus) {
    return BUSES[bus][1];
  }

  public static int dataIn(int bus) {
    return BUSES[bus][2];
  }

  public static int chipSelect(int bus, int select) {
    return BUSES[bus][3 + select];
  }
}
