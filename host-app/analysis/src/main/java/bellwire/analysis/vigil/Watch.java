package bellwire.analysis.vigil;

import java.util.List;

/**
 * What a vigil watched, and when. Times are the vigil's own.
 *
 * @param ports with a conductor, bit 0 for P1; of calls the leads, bit 0 for X1
 * @param returned continuity: the port that the others' current comes back through; else 0
 * @param shortestMicros continuity: the shortest opening that the cable lets through; NaN where not
 *     known
 * @param unwatched times in which nothing was known
 * @param markMicros when a person shook the cable, or noted something else
 */
public record Watch(
    VigilProgram program,
    int ports,
    int returned,
    double shortestMicros,
    long fromMicros,
    long toMicros,
    List<Unwatched> unwatched,
    List<Long> markMicros) {

  public Watch {
    unwatched = List.copyOf(unwatched);
    markMicros = List.copyOf(markMicros);
    if (toMicros < fromMicros || ports == 0) {
      throw new IllegalArgumentException(
          "ports=" + ports + " fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
  }

  public Exposure exposure() {
    return Exposure.without(fromMicros, toMicros, unwatched);
  }
}
