package bellwire.analysis.fault;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/**
 * Faults of a part of the cable, with their weight among the alternatives.
 *
 * @param faults empty where that part is healthy
 * @param logWeight natural logarithm
 * @param chiSquared of the readings; NaN where no circuit explains them
 * @param readings how many they are
 * @param positions on the coded plug that go with it
 */
record Weighed(
    List<Fault> faults,
    double logWeight,
    double chiSquared,
    int readings,
    Map<Integer, Integer> positions) {

  /** What is e^-80 times less probable than the best is not kept. */
  private static final double NEGLIGIBLE = 80;

  boolean explained() {
    return !Double.isNaN(chiSquared);
  }

  /**
   * Joins what blames the same faults, and scales the weights to a sum of one; most probable first.
   */
  static List<Weighed> normalised(List<Weighed> all) {
    double most =
        all.stream().mapToDouble(Weighed::logWeight).max().orElse(Double.NEGATIVE_INFINITY);
    List<Weighed> alive = all.stream().filter(w -> w.logWeight > most - NEGLIGIBLE).toList();
    double sum = alive.stream().mapToDouble(w -> Math.exp(w.logWeight - most)).sum();
    double shift = most + Math.log(sum);
    List<List<Weighed>> alike = new ArrayList<>();
    for (Weighed w : alive) {
      Weighed scaled =
          new Weighed(w.faults, w.logWeight - shift, w.chiSquared, w.readings, w.positions);
      alike.stream()
          .filter(list -> list.get(0).sameAs(w))
          .findFirst()
          .orElseGet(
              () -> {
                List<Weighed> made = new ArrayList<>();
                alike.add(made);
                return made;
              })
          .add(scaled);
    }
    return alike.stream()
        .map(Weighed::joined)
        .sorted(Comparator.comparingDouble(w -> -w.logWeight))
        .toList();
  }

  private boolean sameAs(Weighed other) {
    return explained() == other.explained()
        && new Explanation(faults, 0, true).sameFaults(other.faults);
  }

  private static Weighed joined(List<Weighed> alike) {
    Weighed best = alike.stream().max(Comparator.comparingDouble(Weighed::logWeight)).orElseThrow();
    double total = Math.log(alike.stream().mapToDouble(w -> Math.exp(w.logWeight)).sum());
    List<Fault> faults = new ArrayList<>();
    for (Fault fault : best.faults) {
      List<Fault> same = new ArrayList<>();
      double[] weights = new double[alike.size()];
      for (int k = 0; k < weights.length; k++) {
        weights[k] = Math.exp(alike.get(k).logWeight - total);
        same.add(alike.get(k).faults.stream().filter(fault::sameAs).findFirst().orElse(fault));
      }
      faults.add(
          new Fault(
              fault.kind(),
              fault.ports(),
              fault.others(),
              Places.mixed(same.stream().map(Fault::place).toList(), weights),
              Places.mixed(same.stream().map(Fault::ohms).toList(), weights)));
    }
    return new Weighed(faults, total, best.chiSquared, best.readings, best.positions);
  }
}
