package bellwire.app.link;

import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import bellwire.app.survey.Instrument.Measured;
import bellwire.app.survey.InstrumentTrouble;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * Readings of some probes, over as many programs as it takes. A probe that is read again follows
 * the one before it again too, which may prepare its state.
 */
final class Gathering {
  private final List<Probe> probes;
  private final @Nullable Reading[] readings;
  private final BitSet missing = new BitSet();

  /** What the next program reads. */
  private final List<Integer> asked = new ArrayList<>();

  private long startMicros;
  private long endMicros;
  private long conversionMicros;

  Gathering(List<Probe> probes) {
    this.probes = probes;
    readings = new Reading[probes.size()];
    missing.set(0, probes.size());
    ask();
  }

  private void ask() {
    asked.clear();
    for (int k = 0; k < probes.size(); k++) {
      if (missing.get(k) || missing.get(k + 1)) {
        asked.add(k);
      }
    }
  }

  /** For the next program. */
  List<Probe> probes() {
    return asked.stream().map(probes::get).toList();
  }

  /** So many probes have no good reading yet. */
  int missing() {
    return missing.cardinality();
  }

  /** How much of all is done once so much of the program is. */
  double share(double ofProgram) {
    return 1 - (1 - ofProgram) * asked.size() / probes.size();
  }

  /** What such a program has read with the relays closed. */
  void take(ProgramRun ended, double converterVolts) throws InstrumentTrouble {
    if (ended.endMicros() > 0) {
      startMicros = startMicros == 0 ? ended.startMicros() : startMicros;
      endMicros = ended.endMicros();
    }
    conversionMicros += ended.conversionMicros();
    for (int i = 0; i < asked.size(); i++) {
      if (ended.good(i)) {
        readings[asked.get(i)] = ended.reading(i, converterVolts);
        missing.clear(asked.get(i));
      }
    }
    ask();
  }

  /** Once nothing is missing. */
  Measured measured() {
    return new Measured(
        Arrays.stream(readings).map(Objects::requireNonNull).toList(),
        startMicros,
        endMicros,
        conversionMicros);
  }
}
