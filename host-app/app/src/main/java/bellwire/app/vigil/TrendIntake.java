package bellwire.app.vigil;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Reading;
import bellwire.analysis.survey.TrendPlan;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilStore;
import bellwire.link.Message;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * Converter codes of a trend, a stream for each probe of its round, and the resistances in them.
 */
final class TrendIntake implements Intake {
  private static final String STREAM = "step-";
  private static final int NOT_READ = Message.Samples.MISSED | Message.Samples.NOT_CONNECTED;

  /** What took longer was broken off. */
  private static final long MOST_ROUND_MICROS = 60_000_000;

  private record Code(int step, long micros, int code) {}

  private final VigilStore store;
  private final VigilOrder order;
  private final TrendPlan plan;
  private final List<Probe> probes;
  private final double converterVolts;
  private final List<Stream> streams = new ArrayList<>();

  /** Until a second round has told how long one takes. */
  private final List<Code> early = new ArrayList<>();

  /** When each probe came first. */
  private final long[] seenMicros;

  /** When each was stored last by this program. */
  private final long[] storedMicros;

  private final @Nullable Reading[] round;
  private final double[] ohms = new double[16];
  private final TrendPlan.@Nullable Shown[] shown = new TrendPlan.Shown[16];
  private long firstMicros = NEVER;
  private long lastMicros = NEVER;

  TrendIntake(VigilStore store, VigilOrder order, BoardModel board) {
    this.store = store;
    this.order = order;
    plan = new TrendPlan(board, order.ports(), order.expectedOhms());
    probes = plan.probes();
    converterVolts = board.converterVolts();
    round = new Reading[probes.size()];
    seenMicros = new long[probes.size()];
    storedMicros = new long[probes.size()];
    java.util.Arrays.fill(seenMicros, NEVER);
    java.util.Arrays.fill(storedMicros, NEVER);
    for (Stream each : store.streams()) {
      streams.add(each);
    }
  }

  @Override
  public void take(Message.Data message, long offsetMicros) throws JobFileException {
    if (!(message instanceof Message.Samples samples)) {
      return;
    }
    for (int i = 0; i < samples.code().length; i++) {
      int step = samples.step()[i];
      long micros = samples.deviceMicros()[i] + offsetMicros;
      if (step >= probes.size() || micros <= lastMicros) {
        continue;
      }
      boolean read = (samples.flags()[i] & NOT_READ) == 0;
      boolean overloaded = (samples.flags()[i] & Message.Samples.OVERLOAD) != 0;
      int code = samples.code()[i];
      take(step, micros, overloaded ? StoredTrend.overloaded(code) : code, read);
      lastMicros = micros;
      firstMicros = firstMicros == NEVER ? micros : firstMicros;
    }
  }

  private void take(int step, long micros, int code, boolean read) throws JobFileException {
    if (streams.isEmpty()) {
      learnPeriod(step, micros);
    }
    round[step] = read ? StoredTrend.reading(probes.get(step), code, micros, converterVolts) : null;
    if ((step + 1) % TrendPlan.READINGS_EACH == 0) {
      resistance(step / TrendPlan.READINGS_EACH);
    }
    if (!read) {
      return;
    }
    if (streams.isEmpty()) {
      early.add(new Code(step, micros, code));
    } else {
      append(step, micros, code);
    }
  }

  /** How long a round takes is known once a probe comes again. */
  private void learnPeriod(int step, long micros) throws JobFileException {
    boolean broken = seenMicros[step] != NEVER && micros - seenMicros[step] > MOST_ROUND_MICROS;
    if (broken) {
      java.util.Arrays.fill(seenMicros, NEVER);
      early.clear();
    }
    if (seenMicros[step] == NEVER) {
      seenMicros[step] = micros;
      return;
    }
    List<String> names = IntStream.range(0, probes.size()).mapToObj(i -> STREAM + i).toList();
    streams.addAll(store.addCodes(names, micros - seenMicros[step]));
    for (Code each : early) {
      append(each.step(), each.micros(), each.code());
    }
    early.clear();
  }

  /** A round begun anew after a break may come too soon for its stream: it is left out. */
  private void append(int step, long micros, int code) throws JobFileException {
    Stream stream = streams.get(step);
    long before = storedMicros[step] == NEVER ? store.storedBefore(stream) : storedMicros[step];
    if (before == NEVER || micros - before >= (stream.periodMicros() + 1) / 2) {
      store.appendCode(stream, micros, code);
      storedMicros[step] = micros;
    }
  }

  private void resistance(int reading) {
    int from = reading * TrendPlan.READINGS_EACH;
    List<Reading> four = new ArrayList<>();
    for (int i = from; i < from + TrendPlan.READINGS_EACH; i++) {
      Reading each = round[i];
      if (each == null) {
        return; // as it was before
      }
      four.add(each);
    }
    int port = plan.port(reading);
    shown[port] = plan.shown(four);
    ohms[port] = plan.ohms(four).map(q -> q.value()).orElse(Double.NaN);
  }

  @Override
  public void finish() {}

  @Override
  public long lastMicros() {
    return lastMicros;
  }

  @Override
  public long watchedMicros() {
    return lastMicros == NEVER ? 0 : lastMicros - firstMicros;
  }

  @Override
  public String now(int at) {
    boolean both = plan.readings() == 1 && (order.ports() >>> at & 1) != 0;
    int port = both ? plan.port(0) : at;
    if (shown[port] == null) {
      return "";
    }
    return switch (shown[port]) {
      case RESISTANCE ->
          String.format(Locale.ROOT, "%.3f ohm%s", ohms[port], both ? " both together" : "");
      case NONE -> "open, or far from what was expected";
      case UNSTEADY -> "not steady";
      case DISTURBED -> "not measured: a voltage from outside";
    };
  }
}
