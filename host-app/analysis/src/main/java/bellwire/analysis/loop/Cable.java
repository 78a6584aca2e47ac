package bellwire.analysis.loop;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The cable between equipment and control, as measured or as assumed.
 *
 * @param conductors in the jacket's order, as far as known: neighbours can touch
 * @param bridges between conductors, or from one to metal
 */
public record Cable(String name, List<Conductor> conductors, List<Bridge> bridges) {

  /**
   * One conductor.
   *
   * @param name unique: its colour, or its port where the colour is not known
   * @param nearColour as it is at the near end; null if not known
   * @param farColour as it is at the far end; null if not known
   * @param ohms from end to end, joints included; infinite where broken
   * @param uOhms standard uncertainty of it; 0 where assumed
   * @param brokenAt of a broken one, fraction of the run from the near end, 0 to 1: both parts are
   *     still copper; else NaN
   */
  public record Conductor(
      String name,
      @Nullable String nearColour,
      @Nullable String farColour,
      double ohms,
      double uOhms,
      double brokenAt) {
    public Conductor {
      if (Double.isInfinite(ohms) != (brokenAt >= 0 && brokenAt <= 1)) {
        throw new IllegalArgumentException("ohms=" + ohms + " brokenAt=" + brokenAt);
      }
    }

    /** Where broken, halfway. */
    public Conductor(
        String name,
        @Nullable String nearColour,
        @Nullable String farColour,
        double ohms,
        double uOhms) {
      this(name, nearColour, farColour, ohms, uOhms, Double.isInfinite(ohms) ? 0.5 : Double.NaN);
    }

    public boolean broken() {
      return Double.isInfinite(ohms);
    }
  }

  /**
   * Copper or damp between two conductors.
   *
   * @param a conductor
   * @param b conductor; null for metal
   * @param at fraction of the run from the near end, 0 to 1
   */
  public record Bridge(String a, @Nullable String b, double ohms, double at) {}

  public Cable {
    conductors = List.copyOf(conductors);
    bridges = List.copyOf(bridges);
  }

  public Conductor conductor(String name) {
    for (Conductor c : conductors) {
      if (c.name().equals(name)) {
        return c;
      }
    }
    throw new IllegalArgumentException("conductor=" + name);
  }
}
