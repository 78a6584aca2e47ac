package bellwire.app.link;

import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Samples;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import java.util.List;
import java.util.function.DoubleConsumer;
import org.jspecify.annotations.Nullable;

/** One program at the agent, from its start to its last sample. */
final class ProgramRun {
  private final long id;
  private final List<Probe> probes;
  private final DoubleConsumer progress;
  private final int[][] codes;
  private final long[][] micros;
  private final int[] counts;
  private final int[] flags;
  private final long firstStepMicros;
  private final long conversionMicros;
  private long firstMicros;
  private long endMicros;
  private @Nullable Ended ended;

  ProgramRun(long id, List<Probe> probes, List<ScanStep> steps, DoubleConsumer progress) {
    this.id = id;
    firstStepMicros = stepMicros(steps.get(0), 1);
    conversionMicros = steps.stream().mapToLong(step -> stepMicros(step, step.repeats())).sum();
    this.probes = probes;
    this.progress = progress;
    codes = new int[probes.size()][];
    micros = new long[probes.size()][];
    counts = new int[probes.size()];
    flags = new int[probes.size()];
    for (int k = 0; k < codes.length; k++) {
      codes[k] = new int[probes.get(k).repeats()];
      micros[k] = new long[codes[k].length];
    }
  }

  long id() {
    return id;
  }

  /**
   * What a step's conversions and their settling take; the first conversion of the 20 per second
   * filter is longer.
   */
  private static long stepMicros(ScanStep step, int repeats) {
    double one = 1e6 / step.rate().perSecond();
    double first = step.rate() == Rate.SPS_20 ? 56_500 : one;
    return Math.round(first + (repeats - 1) * one) + step.settleMicros();
  }

  void take(Samples samples) {
    if (samples.program() != id) {
      return;
    }
    int[] step = samples.step();
    for (int i = 0; i < step.length; i++) {
      int k = step[i];
      if (k >= 0 && k < codes.length && counts[k] < codes[k].length) {
        endMicros = samples.deviceMicros()[i];
        micros[k][counts[k]] = endMicros;
        codes[k][counts[k]++] = samples.code()[i];
        flags[k] |= samples.flags()[i];
        firstMicros = firstMicros == 0 ? endMicros : firstMicros;
      }
    }
    if (step.length > 0) {
      progress.accept((step[step.length - 1] + 1.0) / codes.length);
    }
  }

  void take(Ended message) {
    if (message.program() == id) {
      ended = message;
    }
  }

  boolean ended() {
    return ended != null;
  }

  Ended.Outcome outcome() {
    return ended == null ? Ended.Outcome.TROUBLE : ended.outcome();
  }

  String reason() {
    return ended == null ? "" : ended.reason();
  }

  /** When the first step began, as far as the end of its first conversion tells. */
  long startMicros() {
    return firstMicros - firstStepMicros;
  }

  long conversionMicros() {
    return conversionMicros;
  }

  long endMicros() {
    return endMicros;
  }

  /**
   * Whether all of a probe's readings came, with the connect relays closed as they should be.
   *
   * @throws InstrumentTrouble where a program that says that all is done has left some out
   */
  boolean good(int probe) throws InstrumentTrouble {
    boolean all = counts[probe] == codes[probe].length;
    if (!all && outcome() == Ended.Outcome.DONE) {
      throw new InstrumentTrouble(
          "the agent left readings out: step="
              + probe
              + " readings="
              + counts[probe]
              + " of "
              + codes[probe].length);
    }
    return all && (flags[probe] & Samples.NOT_CONNECTED) == 0;
  }

  /** Of a {@link #good} probe. */
  Reading reading(int probe, double converterVolts) {
    boolean overloaded = (flags[probe] & Samples.OVERLOAD) != 0;
    return Reading.ofCodes(
        probes.get(probe), codes[probe], micros[probe], converterVolts, overloaded);
  }
}
