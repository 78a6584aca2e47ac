package bellwire.analysis.survey;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where two ports touch, and how well, as the best explanation has it.
 *
 * @param ohms between them at that place, without the copper on the way
 * @param at null where nothing was measured that tells
 */
record Touch(int a, int b, Quantity ohms, @Nullable AlongRun at) {
  /** Below this an explanation is one among others. */
  private static final double LIKELY = 0.5;

  /** Those of the most probable explanation, if it explains all and is likely. */
  static List<Touch> of(List<Explanation> explanations, @Nullable Quantity run) {
    List<Touch> touches = new ArrayList<>();
    if (explanations.isEmpty()) {
      return touches;
    }
    Explanation best = explanations.get(0);
    if (best.explained() && best.probability() >= LIKELY) {
      for (Fault fault : best.faults()) {
        Quantity ohms = fault.ohms();
        Quantity place = fault.place();
        boolean single = fault.ports().size() == 1 && fault.others().size() == 1;
        if (fault.kind() == Fault.Kind.BRIDGE && ohms != null && single) {
          touches.add(
              new Touch(
                  fault.ports().get(0),
                  fault.others().get(0),
                  ohms,
                  place == null ? null : AlongRun.of(place, run)));
        }
      }
    }
    return touches;
  }

  boolean joins(int x, int y) {
    return (a == x && b == y) || (a == y && b == x);
  }

  /** Whether it joins two ports of these. */
  boolean within(List<Integer> cluster) {
    return cluster.contains(a) && cluster.contains(b);
  }
}
