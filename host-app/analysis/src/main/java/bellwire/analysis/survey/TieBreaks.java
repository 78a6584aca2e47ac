package bellwire.analysis.survey;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.ties.TieReading;
import bellwire.analysis.uncertainty.Quantity;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Which conductors are broken, and where: where the ties leave open which, by capacitance, of which
 * a broken one has too little.
 */
final class TieBreaks {
  /** A place so far from the far end, in standard uncertainties, is no whole conductor's. */
  private static final double CLEAR_SIGMAS = 5;

  private final TieReading reading;
  private final Map<Integer, AlongRun> places = new LinkedHashMap<>();

  /**
   * @param length of the run, null if it is not known
   */
  TieBreaks(OpenResult open, TieReading reading, @Nullable Quantity length) {
    this.reading = reading;
    OpenPlaces.of(open, reading.surelyBroken())
        .forEach((port, at) -> places.put(port, AlongRun.of(at, length)));
  }

  /**
   * Of the ports that may be broken those that are, if as many as there must be show it by their
   * capacitance; otherwise none.
   */
  static SortedSet<Integer> byCapacitance(OpenResult open, TieReading reading) {
    SortedSet<Integer> clear = new TreeSet<>();
    OpenPlaces.of(open, reading.maybeBroken())
        .forEach(
            (port, at) -> {
              if (at.value() + CLEAR_SIGMAS * at.u() < 1) {
                clear.add(port);
              }
            });
    return clear.size() == reading.opens() ? clear : new TreeSet<>();
  }

  /** Ports whose conductor is broken, whatever the explanation. */
  SortedSet<Integer> ports() {
    return reading.surelyBroken();
  }

  /** Where it is, null where nothing can be said. */
  @Nullable AlongRun at(int port) {
    return places.get(port);
  }

  /** What was found, in words; null where nothing is broken. */
  @Nullable Finding finding(String numbers) {
    List<Integer> maybe = List.copyOf(reading.maybeBroken());
    if (reading.opens() == 0) {
      return null;
    }
    if (maybe.isEmpty()) {
      String words = "the conductor of " + numbers + " is on no port";
      return new Finding(CableFinding.UNTIED, List.of(), words);
    }
    List<Integer> known = List.copyOf(ports());
    if (known.size() == reading.opens()) {
      StringBuilder words = new StringBuilder(Ports.names(known)).append(": ").append(numbers);
      known.stream()
          .map(places::get)
          .filter(at -> at != null)
          .forEach(at -> words.append(", open ").append(at.words()));
      return new Finding(CableFinding.UNTIED, known, words.toString());
    }
    String words =
        (reading.opens() == 1 ? "one" : "two")
            + " of "
            + Ports.names(maybe)
            + " broken or not in the clip: "
            + numbers;
    return new Finding(CableFinding.UNTIED, maybe, words);
  }
}
