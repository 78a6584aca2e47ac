package bellwire.analysis.attached;

import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;

/**
 * A second cable's conductors under the same clamps: several conductors with more capacitance than
 * their fellows, by about the same amount. Theory (45).
 */
final class SecondCable {
  /** Fellows differ by less; and five standard uncertainties must lie between. */
  private static final double LEAST_EXCESS = 0.12;

  private static final double SIGMAS = 5;

  /** The excesses of one cable's conductors are alike within this factor. */
  private static final double ALIKE = 1.6;

  private SecondCable() {}

  /** Ports that share their clamps with a second cable; empty where none does. */
  static List<Integer> ports(OpenResult open, List<Attachment> attached) {
    List<Integer> ports = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    for (int port : open.conductors()) {
      Quantity farads = open.farads(port);
      if (farads != null && attached.stream().noneMatch(t -> t.a() == port || t.b() == port)) {
        ports.add(port);
        values.add(farads.value());
      }
    }
    if (ports.size() < 4) {
      return List.of();
    }
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    // A broken conductor has less than its fellows: the sound ones are the middle of the others.
    double fellows = sorted[(sorted.length - 1) / 2];
    List<Integer> above = new ArrayList<>();
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int k = 0; k < ports.size(); k++) {
      double excess = values.get(k) - fellows;
      Quantity farads = open.farads(ports.get(k));
      double u = farads == null ? 0 : farads.u();
      if (excess > LEAST_EXCESS * fellows && excess > SIGMAS * u) {
        above.add(ports.get(k));
        least = Math.min(least, excess);
        most = Math.max(most, excess);
      }
    }
    return above.size() > 1 && most < ALIKE * least ? above : List.of();
  }
}
