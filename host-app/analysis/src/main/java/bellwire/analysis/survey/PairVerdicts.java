package bellwire.analysis.survey;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import org.jspecify.annotations.Nullable;

/** Says of every two ports whether they are apart. */
final class PairVerdicts {
  /** So many that touch are told pair by pair. */
  private static final int FEW = 3;

  private final OpenResult open;
  private final Criteria criteria;
  private final List<Touch> touches;
  private final List<Finding> findings = new ArrayList<>();

  /**
   * @param touches where ports touch, as far as it is known
   */
  PairVerdicts(OpenResult open, Criteria criteria, List<Touch> touches) {
    this.open = open;
    this.criteria = criteria;
    this.touches = touches;
  }

  List<PairResult> pairs() {
    List<PairResult> pairs = new ArrayList<>();
    List<Integer> ports = open.ports();
    for (int i = 0; i < ports.size(); i++) {
      for (int j = i + 1; j < ports.size(); j++) {
        pairs.add(pair(ports.get(i), ports.get(j)));
      }
    }
    return pairs;
  }

  List<Finding> findings() {
    return findings;
  }

  private PairResult pair(int a, int b) {
    int ca = open.clusterOf(a);
    int cb = open.clusterOf(b);
    if (ca == cb) {
      Quantity read = open.distances()[a][b];
      Quantity ohms =
          read != null ? read : Quantity.ohms(open.network().resistanceDistance(a, b), 1);
      return joined(a, b, ohms);
    }
    Leak leak = open.leaks()[ca][cb];
    if (!leak.detected()) {
      double above = leak.aboveOhms();
      return above >= criteria.dampOhms()
          ? new PairResult(a, b, null, above, Standing.SOUND, "above " + above(above))
          : new PairResult(
              a,
              b,
              null,
              above,
              Standing.UNDECIDED,
              "above " + above(above) + " is all that can be said");
    }
    double value = 1 / leak.siemens();
    Quantity ohms = Quantity.ohms(value, leak.u() * value * value);
    return leaking(a, b, ohms);
  }

  /** Two ports of one cluster. */
  private PairResult joined(int a, int b, Quantity ohms) {
    List<Integer> cluster = open.clusters().get(open.clusterOf(a));
    boolean known = cluster.size() <= FEW + 1 && touches.stream().anyMatch(t -> t.within(cluster));
    Touch touch = touches.stream().filter(t -> t.joins(a, b)).findFirst().orElse(null);
    if (known && touch == null) {
      return new PairResult(a, b, ohms, 0, Standing.FAULTY, "joined through others");
    }
    boolean touching = ohms.value() < criteria.shortOhms();
    if (!known && cluster.size() > FEW) {
      if (cluster.get(0) == a && cluster.get(1) == b) {
        findings.add(together(cluster));
      }
      return new PairResult(
          a, b, ohms, 0, Standing.FAULTY, touching ? "touching" : "low resistance between them");
    }
    String both = Ports.name(a) + " and " + Ports.name(b);
    String there = touch == null ? "" : ", " + touch.ohms() + " where they meet";
    String words = both + ": " + ohms + (touching ? ", touching" : " between them") + there;
    AlongRun at = touch == null ? null : touch.at();
    findings.add(
        new Finding(touching ? touchingKind(at) : CableFinding.LEAKAGE, List.of(a, b), words, at));
    return new PairResult(
        a, b, ohms, 0, Standing.FAULTY, touching ? "touching" : "low resistance between them");
  }

  /** Of a bundle the pairs say no more than the bundle. */
  private Finding together(List<Integer> cluster) {
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int a : cluster) {
      for (int b : cluster) {
        Quantity read = open.distances()[a][b];
        if (read != null) {
          least = Math.min(least, read.value());
          most = Math.max(most, read.value());
        }
      }
    }
    String words =
        String.format(
            Locale.ROOT,
            "%s hang together, %.2f to %.2f ohm between any two",
            Ports.names(cluster),
            least,
            most);
    return new Finding(CableFinding.TOUCHING, cluster, words);
  }

  private static CableFinding touchingKind(@Nullable AlongRun at) {
    if (at == null || !at.decided()) {
      return CableFinding.TOUCHING;
    }
    return at.atNearEnd()
        ? CableFinding.TOUCHING_AT_THE_NEAR_END
        : at.atFarEnd() ? CableFinding.TOUCHING_AT_THE_FAR_END : CableFinding.TOUCHING_ON_THE_WAY;
  }

  private PairResult leaking(int a, int b, Quantity ohms) {
    String both = Ports.name(a) + " and " + Ports.name(b);
    if (ohms.value() + 2 * ohms.u() < criteria.leakOhms()) {
      if (firstOfClusters(a, b)) {
        findings.add(
            new Finding(
                CableFinding.LEAKAGE,
                List.of(a, b),
                both + ": " + about(ohms.value()) + " between them"));
      }
      return new PairResult(a, b, ohms, 0, Standing.FAULTY, "leakage of " + about(ohms.value()));
    }
    if (ohms.value() - 2 * ohms.u() > criteria.dampOhms()) {
      return new PairResult(
          a, b, ohms, 0, Standing.SOUND, about(ohms.value()) + ", above the limit");
    }
    if (firstOfClusters(a, b)) {
      findings.add(
          new Finding(
              CableFinding.DAMP,
              List.of(a, b),
              both + ": " + about(ohms.value()) + " between them"));
    }
    return new PairResult(
        a, b, ohms, 0, Standing.UNDECIDED, about(ohms.value()) + ", between sound and a fault");
  }

  /** A leakage between clusters is one finding, told of their first ports. */
  private boolean firstOfClusters(int a, int b) {
    return open.clusters().get(open.clusterOf(a)).get(0) == a
        && open.clusters().get(open.clusterOf(b)).get(0) == b;
  }

  /** "48 Mohm", to the nearest that is shown. */
  private static String about(double ohms) {
    return words(ohms, Math::rint);
  }

  /** Rounded down, so that "above" stays true. */
  private static String above(double ohms) {
    return words(ohms, shown -> Math.floor(shown + 1e-9));
  }

  private static String words(double ohms, DoubleUnaryOperator rounding) {
    String[] units = {"ohm", "kohm", "Mohm", "Gohm"};
    int k = 0;
    double x = ohms;
    // 999.5 would be shown as 1000.
    while (rounding.applyAsDouble(x) >= 1000 && k < units.length - 1) {
      x /= 1000;
      k++;
    }
    double step = x >= 100 ? 1 : x >= 10 ? 0.1 : 0.01;
    double rounded = step * rounding.applyAsDouble(x / step);
    // Three figures of what is shown: 99.97 is 100, not 100.0.
    String format = rounded >= 100 ? "%.0f %s" : rounded >= 10 ? "%.1f %s" : "%.2f %s";
    return String.format(Locale.ROOT, format, rounded, units[k]);
  }
}
