package bellwire.app.vigil;

import bellwire.app.job.Source;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message;
import bellwire.link.Message.Ended.Outcome;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.OptionalLong;

/** A board that does as a test says, an entry each time it is given time. */
final class ScriptedBoard implements VigilBoard {
  /** What happens next. */
  interface Entry {
    void happen() throws InstrumentTrouble;
  }

  final Deque<Entry> script = new ArrayDeque<>();

  /** What comes as soon as it is greeted. */
  Entry leftover = () -> {};

  final List<Message.KeepVigil> kept = new ArrayList<>();
  final List<Source> stored = new ArrayList<>();
  List<Source> known = List.of();
  VigilFeed feed = new ScriptedFeed();
  OptionalLong underWay = OptionalLong.empty();
  long boot = 5;
  long nowMicros;
  int armed;
  boolean stopped;

  /** What happens when it is asked for a vigil, a restart of its own undone before. */
  Entry asked = () -> {};

  /** Whether it says that it has let go of all that it had recorded. */
  boolean confirms = true;

  private long sequence;
  private boolean ended;
  private boolean restarted;

  /** A data message of the boot that is on, made at a time of its clock. */
  void say(long deviceMicros, Message.Data message) throws InstrumentTrouble {
    feed.data(true, boot, sequence, deviceMicros, message);
    feed.arrived(boot, ++sequence);
    ended |= message instanceof Message.Ended;
  }

  /** What an earlier boot has kept. */
  void recorded(long oldBoot, long oldSequence, long deviceMicros, Message.Data message)
      throws InstrumentTrouble {
    feed.data(false, oldBoot, oldSequence, deviceMicros, message);
    feed.arrived(boot, ++sequence);
  }

  /** Readings alike, a tick apart. */
  void run(long vigil, long deviceMicros, int ticks, int word, int latched)
      throws InstrumentTrouble {
    say(
        deviceMicros + ticks * 1000L,
        new Message.EventSamples(
            vigil,
            deviceMicros,
            new long[] {0},
            new int[] {ticks},
            new int[] {word},
            new int[] {latched},
            new int[] {0}));
  }

  void end(long vigil, long deviceMicros, Outcome outcome, String reason) throws InstrumentTrouble {
    say(deviceMicros, new Message.Ended(vigil, outcome, reason));
  }

  void restart(long newBoot) {
    boot = newBoot;
    sequence = 0;
    restarted = true;
  }

  @Override
  public Message.Welcome open(List<Source> from) {
    known = List.copyOf(from);
    sequence =
        known.stream()
            .filter(s -> s.boot() == boot)
            .mapToLong(Source::nextSequence)
            .findFirst()
            .orElse(0);
    return new Message.Welcome(1, "test", "A", boot, 0, 0, "", 921_600, 0);
  }

  @Override
  public OptionalLong underWay() {
    return underWay;
  }

  @Override
  public void arm() {
    armed++;
  }

  @Override
  public void keep(Message.KeepVigil order) throws InstrumentTrouble {
    kept.add(order);
    follow(order.vigil());
    asked.happen();
  }

  @Override
  public void follow(long number) {
    ended = false;
    restarted = false;
  }

  @Override
  public void await(long micros) throws InstrumentTrouble {
    if (ended || restarted) {
      return; // as the real one
    }
    nowMicros += micros;
    if (!script.isEmpty()) {
      script.remove().happen();
    }
  }

  @Override
  public void linger(long micros) throws InstrumentTrouble {
    nowMicros += micros;
    leftover.happen();
  }

  @Override
  public boolean part() {
    return confirms;
  }

  @Override
  public void stored(long of, long nextSequence) {
    if (nextSequence > 0) {
      stored.add(new Source(of, nextSequence, 0));
    }
  }

  @Override
  public long boot() {
    return boot;
  }

  @Override
  public boolean ended() {
    return ended;
  }

  @Override
  public boolean restarted() {
    return restarted;
  }

  @Override
  public boolean up() {
    return true;
  }

  @Override
  public long diskBytes() {
    return 0;
  }

  @Override
  public long nowMicros() {
    return nowMicros;
  }

  @Override
  public void stop() {
    stopped = true;
    ended = true;
  }

  @Override
  public boolean letGo() {
    return ended || restarted;
  }

  @Override
  public void close() {}

  private static final class ScriptedFeed implements VigilFeed {
    @Override
    public void data(
        boolean live, long boot, long sequence, long deviceMicros, Message.Data message) {
      throw new IllegalStateException("nobody is connected");
    }

    @Override
    public void arrived(long boot, long nextSequence) {
      throw new IllegalStateException("nobody is connected");
    }

    @Override
    public void lost(long frames) {
      throw new IllegalStateException("nobody is connected");
    }
  }
}
