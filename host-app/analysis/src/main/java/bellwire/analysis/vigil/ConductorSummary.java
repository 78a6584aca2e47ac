package bellwire.analysis.vigil;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * All that happened of one kind to one conductor, pair or lead.
 *
 * @param count events, those shorter than a tick among them
 * @param brief shorter than a tick: only a latch saw them
 * @param cut may have begun before, or gone on after, where nothing was known
 * @param classes events by the class of what they lasted at least, the brief ones left out
 * @param longestLeastMicros what the longest lasted at least
 * @param longestMostMicros what the longest lasted less than, as far as it was watched
 * @param totalLeastMicros all together at least
 * @param totalMostMicros all together at most
 * @param firstMicros when the first was seen; -1 without one
 * @param lastMicros when the last one was seen last
 * @param rate per second of the time in which it could be seen
 * @param chanceOfSeeing touch: of one of {@link #assumedMicros}; else 1
 * @param assumedMicros touch: the length that chance is for; else 0
 */
public record ConductorSummary(
    Subject subject,
    long count,
    long brief,
    long cut,
    Map<InterruptionClass, Long> classes,
    long longestLeastMicros,
    long longestMostMicros,
    long totalLeastMicros,
    long totalMostMicros,
    long firstMicros,
    long lastMicros,
    PoissonRate rate,
    double chanceOfSeeing,
    double assumedMicros,
    Rhythm rhythm,
    MarkEffect marks) {
  public ConductorSummary {
    classes = Map.copyOf(classes);
  }

  /** Bursts where they come in bursts: what a rate's interval holds for. */
  public PoissonRate independent() {
    return new PoissonRate(
        rhythm.manner() == Manner.IN_BURSTS ? rhythm.groups() : count, rate.seconds());
  }

  /**
   * @param events of the subject, by when they began
   * @param chanceOfSeeing as above, of touches
   */
  static ConductorSummary of(
      Subject subject,
      List<VigilEvent> events,
      Exposure exposure,
      List<Long> markMicros,
      int looks,
      double chanceOfSeeing,
      double assumedMicros) {
    long brief = 0;
    long cut = 0;
    long longestLeast = 0;
    long longestMost = 0;
    long totalLeast = 0;
    long totalMost = 0;
    long last = -1;
    Map<InterruptionClass, Long> classes = new EnumMap<>(InterruptionClass.class);
    for (VigilEvent event : events) {
      brief += event.latched() ? 1 : 0;
      cut += event.cut() ? 1 : 0;
      longestLeast = Math.max(longestLeast, event.leastMicros());
      longestMost = Math.max(longestMost, event.mostMicros());
      totalLeast += event.leastMicros();
      totalMost += event.mostMicros();
      last = Math.max(last, event.lastMicros());
      if (!event.latched()) {
        classes.merge(InterruptionClass.of(event.leastMicros()), 1L, Long::sum);
      }
    }
    long[] began = events.stream().mapToLong(VigilEvent::firstMicros).toArray();
    long[] marks = markMicros.stream().mapToLong(Long::longValue).toArray();
    return new ConductorSummary(
        subject,
        events.size(),
        brief,
        cut,
        classes,
        longestLeast,
        longestMost,
        totalLeast,
        totalMost,
        began.length == 0 ? -1 : began[0],
        last,
        new PoissonRate(events.size(), exposure.seconds()),
        chanceOfSeeing,
        assumedMicros,
        Rhythm.of(began, exposure, looks),
        MarkEffect.of(began, marks, exposure));
  }
}
