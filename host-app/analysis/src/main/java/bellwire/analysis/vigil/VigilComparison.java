package bellwire.analysis.vigil;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Two vigils of one program, before and after a repair. Where events came in bursts, bursts are
 * counted, for a rate's chances hold for what comes independently. Theory (105) to (107), (124).
 *
 * @param whole everything that happened together
 * @param conductors each to whom something happened in one of the two
 */
public record VigilComparison(Line whole, List<Line> conductors) {
  private static final double CONFIDENCE = 0.95;

  /** Two shortest openings are the same within so much. */
  private static final double SAME = 0.1;

  public VigilComparison {
    conductors = List.copyOf(conductors);
  }

  /**
   * One rate before and after.
   *
   * @param bursts bursts were counted, not single events
   * @param chanceOfSoFew of so few after, were nothing repaired
   * @param chanceOfNone of none after, were the earlier rate just as seen
   * @param ratio later rate over earlier one, 95 %
   * @param secondsToBeSure to watch without an event, from the beginning, to be 95 % sure; infinite
   *     without an event before
   */
  public record Line(
      Optional<Subject> subject,
      PoissonRate before,
      PoissonRate after,
      boolean bursts,
      double chanceOfSoFew,
      double chanceOfNone,
      Interval ratio,
      double secondsToBeSure) {

    static Line of(Optional<Subject> subject, PoissonRate was, PoissonRate is, boolean bursts) {
      RateComparison both = new RateComparison(was, is);
      return new Line(
          subject,
          was,
          is,
          bursts,
          both.chanceOfSoFew(1),
          RateComparison.chanceOfNone(was, is.seconds()),
          both.ratio(CONFIDENCE),
          was.events() == 0
              ? Double.POSITIVE_INFINITY
              : RateComparison.secondsToBeSure(was, CONFIDENCE));
    }

    /** Fewer than the earlier rate explains, and surely so. */
    public boolean fewer() {
      return chanceOfSoFew <= 1 - CONFIDENCE;
    }

    /** More than before, and surely so. */
    public boolean more() {
      return ratio.low() > 1;
    }
  }

  /** Why two vigils can't be compared, in words; empty where they can. */
  public static List<String> obstacles(Watch before, Watch after) {
    List<String> why = new ArrayList<>();
    if (before.program() != after.program()) {
      why.add("one watched for other things than the other");
    } else if (before.program() == VigilProgram.TREND) {
      why.add("a trend has no events to count; look at each one's resistances");
    }
    if (before.ports() != after.ports()) {
      why.add("they watched other conductors");
    }
    if (before.program() == VigilProgram.CONTINUITY && after.program() == before.program()) {
      if (before.returned() != after.returned()) {
        why.add("the current came back through another conductor");
      }
      double ratio = after.shortestMicros() / before.shortestMicros();
      if (Math.abs(ratio - 1) > SAME
          || Double.isNaN(before.shortestMicros()) != Double.isNaN(after.shortestMicros())) {
        why.add("the shortest opening that could be seen is another");
      }
    }
    return why;
  }

  /**
   * @throws IllegalArgumentException where {@link #obstacles} has any
   */
  public static VigilComparison of(VigilSummary before, VigilSummary after) {
    List<String> why = obstacles(before.watch(), after.watch());
    if (!why.isEmpty()) {
      throw new IllegalArgumentException("why=" + why);
    }
    List<Line> lines = new ArrayList<>();
    for (ConductorSummary was : before.conductors()) {
      if (was.count() > 0) {
        lines.add(line(was, find(after, was.subject()), after));
      }
    }
    for (ConductorSummary is : after.conductors()) {
      if (is.count() > 0
          && find(before, is.subject()).map(ConductorSummary::count).orElse(0L) == 0) {
        PoissonRate was =
            find(before, is.subject()).map(ConductorSummary::rate).orElse(none(before));
        lines.add(Line.of(Optional.of(is.subject()), was, is.independent(), bursts(is)));
      }
    }
    boolean bursts = lines.stream().anyMatch(Line::bursts);
    return new VigilComparison(
        Line.of(
            Optional.empty(),
            bursts ? counted(before) : before.incidents(),
            bursts ? counted(after) : after.incidents(),
            bursts),
        lines);
  }

  private static Line line(
      ConductorSummary was, Optional<ConductorSummary> later, VigilSummary after) {
    boolean bursts = bursts(was) || later.map(VigilComparison::bursts).orElse(false);
    PoissonRate is =
        later
            .map(bursts ? ConductorSummary::independent : ConductorSummary::rate)
            .orElse(none(after));
    return Line.of(Optional.of(was.subject()), bursts ? was.independent() : was.rate(), is, bursts);
  }

  private static boolean bursts(ConductorSummary summary) {
    return summary.rhythm().manner() == Manner.IN_BURSTS;
  }

  private static Optional<ConductorSummary> find(VigilSummary in, Subject subject) {
    return in.conductors().stream().filter(c -> c.subject().equals(subject)).findFirst();
  }

  private static PoissonRate none(VigilSummary summary) {
    return new PoissonRate(0, summary.incidents().seconds());
  }

  private static PoissonRate counted(VigilSummary summary) {
    long sum = summary.conductors().stream().mapToLong(c -> c.independent().events()).sum();
    return new PoissonRate(
        Math.min(sum, Math.max(summary.incidents().events(), 0)), summary.incidents().seconds());
  }
}
