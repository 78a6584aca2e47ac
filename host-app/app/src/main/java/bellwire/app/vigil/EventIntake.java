package bellwire.app.vigil;

import bellwire.analysis.vigil.EventFinder;
import bellwire.analysis.vigil.EventLimits;
import bellwire.analysis.vigil.Touch;
import bellwire.analysis.vigil.TouchDecoder;
import bellwire.analysis.vigil.VigilEvent;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilStore;
import bellwire.link.Message;
import java.util.ArrayList;
import java.util.List;

/** Openings of a continuity vigil, touches of a touch vigil. */
final class EventIntake implements Intake {
  static final String STREAM = "ports";
  static final long TICK_MICROS = 1000;

  /** Readings further apart leave a gap; one comes late now and then. */
  private static final long GAP_MICROS = 1500;

  static final EventLimits EACH = new EventLimits(GAP_MICROS, 0, 0);

  private static final int PORTS = 16;

  private final VigilStore store;
  private final Stream stream;
  private final Tally tally;
  private final EventFinder openings;
  private final TouchDecoder touches;
  private final boolean touch;
  private final List<bellwire.app.job.VigilEvent> found = new ArrayList<>();
  private int word;
  private long lastMicros = NEVER;

  EventIntake(VigilStore store, Stream stream, VigilOrder order, Tally tally) {
    this.store = store;
    this.stream = stream;
    this.tally = tally;
    touch = order.kind() == Message.KeepVigil.Kind.TOUCH;
    openings = new EventFinder(PORTS, EACH, this::opening);
    touches = new TouchDecoder(order.ports(), EACH, this::touch);
  }

  @Override
  public void take(Message.Data message, long offsetMicros) throws JobFileException {
    if (!(message instanceof Message.EventSamples samples)) {
      return;
    }
    long first = samples.firstMicros() + offsetMicros;
    for (int i = 0; i < samples.word().length; i++) {
      first += samples.deltaMicros()[i];
      run(first, samples.ticks()[i], samples.word()[i], samples.latched()[i], samples.code()[i]);
    }
    for (bellwire.app.job.VigilEvent each : found) {
      store.event(each);
    }
    found.clear();
  }

  private void run(long first, int ticks, int open, int latched, int code) throws JobFileException {
    long last = first + (ticks - 1) * TICK_MICROS;
    if (first <= lastMicros) {
      return; // came before the host was restarted
    }
    store.appendTicks(stream, first, ticks, open, latched, code);
    if (touch) {
      touches.accept(first, last, code, open, latched);
    } else {
      openings.accept(first, last, open, latched);
    }
    word = open;
    lastMicros = last;
  }

  private void opening(VigilEvent e) {
    tally.add(e.port(), e.firstMicros(), e.leastMicros(), e.latched());
    found.add(
        new bellwire.app.job.VigilEvent(
            e.port(),
            0,
            e.beforeMicros(),
            e.firstMicros(),
            e.lastMicros(),
            e.afterMicros(),
            e.times(),
            e.latched(),
            e.cutBefore(),
            e.cutAfter()));
  }

  private void touch(Touch t) {
    int surely = t.drivenPorts() | (t.decided() ? t.possibleOthers() : 0);
    tally.addAll(surely, t.firstMicros(), t.leastMicros(), t.latched());
    int port = Integer.numberOfTrailingZeros(t.drivenPorts());
    found.add(
        new bellwire.app.job.VigilEvent(
            port,
            t.possibleOthers() | t.drivenPorts() & ~(1 << port),
            t.beforeMicros(),
            t.firstMicros(),
            t.lastMicros(),
            t.afterMicros(),
            1,
            t.latched(),
            t.cutBefore(),
            t.cutAfter()));
  }

  @Override
  public void finish() throws JobFileException {
    openings.finish();
    touches.finish();
    for (bellwire.app.job.VigilEvent each : found) {
      store.event(each);
    }
    found.clear();
  }

  @Override
  public long lastMicros() {
    return lastMicros;
  }

  @Override
  public long watchedMicros() {
    return touch ? touches.watchedMicros() : openings.watchedMicros();
  }

  @Override
  public String now(int at) {
    return (word >>> at & 1) == 0 ? "" : touch ? "touching" : "OPEN";
  }
}
