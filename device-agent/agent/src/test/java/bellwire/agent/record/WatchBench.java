package bellwire.agent.record;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.agent.EndpointLink;
import bellwire.link.DataFrame;
import bellwire.link.DataRing;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;

/**
 * An agent's end with a disk, a line and a host that stores once a second; all can be stopped at
 * any moment. What was made, what is stored and what was told as lost is kept account of.
 */
final class WatchBench implements HostListener {
  static final long STEP_MICROS = 10_000;
  private static final int BAUD = 115_200;

  /** What a host has stored: with the data, how far each boot's frames are in. */
  static final class Store {
    final Map<Long, TreeMap<Long, byte[]>> frames = new HashMap<>();
    final Map<Long, List<long[]>> lost = new HashMap<>();
    Map<Long, Long> next = new LinkedHashMap<>();
    int twice;
    int outOfOrder;
  }

  private record Arrived(long boot, long sequence, byte[] bytes) {}

  final Random random;
  final Line line;
  final Store store = new Store();
  private final Path directory;
  private final long recordBytes;
  private final int ringFrames;

  /** Numbers of each boot's own frames: those that carried an earlier one's are not made anew. */
  final Map<Long, BitSet> made = new LinkedHashMap<>();

  /** Below which they were on the disk, or the host's, when the boot ended. */
  private final Map<Long, Long> safe = new HashMap<>();

  private final List<Arrived> arrived = new ArrayList<>();
  private final Map<Long, Long> arrivedNext = new LinkedHashMap<>();
  private final List<long[]> arrivedLost = new ArrayList<>();
  private FrameLog log;
  private EndpointLink agent;
  private HostEndpoint host;
  private long now;
  private long storedMicros;
  private long frameMicros;
  private long boot = 100;
  long delivered;
  long duplicates;
  long resent;
  private boolean visited;
  long visitorsFrames;

  WatchBench(Path directory, long seed, long recordBytes, int ringFrames) {
    this.directory = directory;
    this.recordBytes = recordBytes;
    this.ringFrames = ringFrames;
    random = new Random(seed);
    line = new Line(random, (int) (BAUD / 10 * STEP_MICROS / 1_000_000));
    startAgent();
    startHost();
  }

  private void startAgent() {
    boot++;
    DataRing memory = new DataRing(ringFrames, 1 << 20);
    log = FrameLog.inStep(new RecordSettings(directory, recordBytes), boot, memory);
    agent = EndpointLink.open(line.end(0), boot, "test", "A", BAUD, log);
    agent.recording(true);
    frameMicros = now;
  }

  private void startHost() {
    host =
        new HostEndpoint(
            line.end(1), this, HostEndpoint.Timing.forBaud(BAUD), random.nextInt(1 << 30));
    arrived.clear();
    arrivedLost.clear();
    arrivedNext.clear();
    arrivedNext.putAll(store.next);
    store.next.forEach(host::resume);
    host.deferAcknowledgement();
  }

  /** As SIGKILL or a power cut: what was not written is gone. */
  void killAgent() {
    endAgent();
    log.abandon();
    startAgent();
  }

  /** In order. */
  void restartAgent() {
    agent.close();
    endAgent();
    safe.put(boot, log.next());
    startAgent();
  }

  private void endAgent() {
    safe.put(boot, Math.max(log.safeBelow(), log.oldest()));
    resent += agent.counts().resent();
  }

  /** Another host comes in between, which stores nothing: what it gets is not to be missing. */
  void visit(long micros) {
    killHost();
    host = new HostEndpoint(line.end(1), this, HostEndpoint.Timing.forBaud(BAUD), 1);
    visited = true;
    run(micros);
    visited = false;
    startHost();
  }

  /** What was not stored is gone. */
  void killHost() {
    duplicates += host.counts().duplicates();
    startHost();
  }

  void step() {
    now += STEP_MICROS;
    line.move();
    while (frameMicros + 1_000_000 <= now || frameMicros < now && random.nextInt(100) == 0) {
      frameMicros = now;
      made.computeIfAbsent(boot, any -> new BitSet()).set((int) log.next());
      agent.send(LogBench.message(boot, log.next()), now);
    }
    agent.step(now);
    for (Message.FromHost each = agent.poll(); each != null; each = agent.poll()) {
      if (each instanceof Message.Ping ping) {
        Message.Interlock clear = new Message.Interlock(false, false, 0);
        agent.reply(new Message.Alive(ping.request(), clear, 1, agent.diskBytes()));
      }
    }
    host.step(now);
    if (now - storedMicros >= 1_000_000) {
      storedMicros = now;
      commit();
    }
  }

  void run(long micros) {
    for (long end = now + micros; now < end; ) {
      step();
    }
  }

  /** Nothing more is made; runs until the host has all. */
  void finish(long atMostMicros) {
    line.cut(false);
    line.changed = 0;
    for (long end = now + atMostMicros; now < end; ) {
      frameMicros = now;
      run(100_000);
      if (host.isUp() && log.oldest() == log.next() && now > end - atMostMicros + 20_000_000) {
        safe.put(boot, log.next());
        resent += agent.counts().resent();
        duplicates += host.counts().duplicates();
        agent.close();
        return;
      }
    }
    throw new AssertionError("not drained: oldest=" + log.oldest() + " next=" + log.next());
  }

  private void commit() {
    if (visited) {
      return;
    }
    for (Arrived each : arrived) {
      TreeMap<Long, byte[]> frames =
          store.frames.computeIfAbsent(each.boot(), any -> new TreeMap<>());
      store.outOfOrder += !frames.isEmpty() && frames.lastKey() > each.sequence() ? 1 : 0;
      store.twice += frames.put(each.sequence(), each.bytes()) == null ? 0 : 1;
    }
    for (long[] each : arrivedLost) {
      store.lost.computeIfAbsent(each[0], any -> new ArrayList<>()).add(each);
    }
    delivered += arrived.size();
    arrived.clear();
    arrivedLost.clear();
    if (host.bootId() != 0) {
      arrivedNext.remove(host.bootId()); // so that it is the last, the one to go on with
      arrivedNext.put(host.bootId(), host.nextSequence());
      store.next = new LinkedHashMap<>(arrivedNext);
      host.stored(host.bootId(), host.nextSequence());
    }
  }

  @Override
  public void data(DataFrame frame) {
    if (visited) {
      assertThat(frame.message()).isNotInstanceOf(Message.Recorded.class);
      visitorsFrames++;
      return;
    }
    if (frame.message() instanceof Message.Recorded earlier) {
      arrivedNext.put(earlier.boot(), earlier.sequence() + 1);
      if (earlier.message() instanceof Message.Trouble) { // stands for a frame that is gone
        lostOfEarlier(earlier.boot(), earlier.sequence(), earlier.sequence() + 1);
        return;
      }
      byte[] bytes =
          MessageCodec.encode(
              new DataFrame(earlier.sequence(), earlier.deviceMicros(), earlier.message()));
      arrived.add(new Arrived(earlier.boot(), earlier.sequence(), bytes));
    } else {
      arrived.add(new Arrived(host.bootId(), frame.sequence(), MessageCodec.encode(frame)));
    }
  }

  @Override
  public void lost(long fromSequence, long toSequence) {
    if (visited) {
      throw new AssertionError("lost to a visitor: from=" + fromSequence);
    }
    arrivedLost.add(new long[] {host.bootId(), fromSequence, toSequence});
  }

  @Override
  public void lostOfEarlier(long bootId, long fromSequence, long toSequence) {
    arrivedLost.add(new long[] {bootId, fromSequence, toSequence});
  }

  @Override
  public void agentRestarted(long oldBootId, long newBootId) {
    long next = arrivedNext.getOrDefault(oldBootId, 0L);
    for (Arrived each : arrived) {
      next = each.boot() == oldBootId ? Math.max(next, each.sequence() + 1) : next;
    }
    arrivedNext.put(oldBootId, next);
  }

  /** Frames of boots, by how they ended up. */
  record Account(
      long made, long stored, long different, long lost, long unsafe, long missing, long both) {}

  /** Of every frame that was made: stored, told as lost, not safe when its boot was killed. */
  Account account() {
    long all = 0;
    long stored = 0;
    long different = 0;
    long told = 0;
    long unsafe = 0;
    long missing = 0;
    long both = 0;
    for (Map.Entry<Long, BitSet> each : made.entrySet()) {
      TreeMap<Long, byte[]> frames = store.frames.getOrDefault(each.getKey(), new TreeMap<>());
      for (int i = each.getValue().nextSetBit(0); i >= 0; i = each.getValue().nextSetBit(i + 1)) {
        byte[] bytes = frames.get((long) i);
        boolean lost = isLost(each.getKey(), i);
        both += bytes != null && lost ? 1 : 0;
        all++;
        if (bytes != null) {
          stored++;
          different += isRight(each.getKey(), i, bytes) ? 0 : 1;
        } else if (lost) {
          told++;
        } else if (i >= safe.getOrDefault(each.getKey(), 0L)) {
          unsafe++;
        } else {
          missing++;
        }
      }
    }
    return new Account(all, stored, different, told, unsafe, missing, both);
  }

  private boolean isLost(long of, long sequence) {
    return store.lost.getOrDefault(of, List.of()).stream()
        .anyMatch(range -> range[1] <= sequence && sequence < range[2]);
  }

  private static boolean isRight(long of, long sequence, byte[] bytes) {
    DataFrame right = new DataFrame(sequence, 0, LogBench.message(of, sequence));
    try {
      if (!(MessageCodec.decode(bytes) instanceof DataFrame got)) {
        return false;
      }
      return Arrays.equals(
          MessageCodec.encode(new DataFrame(sequence, 0, got.message())),
          MessageCodec.encode(right));
    } catch (LinkFormatException e) {
      return false;
    }
  }

  @Override
  public void linkUp(Message.Welcome welcome) {}

  @Override
  public void linkLost(String reason) {}

  @Override
  public void otherProtocol(Message.Welcome welcome) {
    throw new AssertionError(welcome);
  }

  @Override
  public void unreadable(long sequence, String reason) {
    throw new AssertionError("sequence=" + sequence + " " + reason);
  }

  @Override
  public void replied(Message.Reply reply) {}

  @Override
  public void alive(Message.Alive alive) {}

  @Override
  public void unanswered(long request, String reason) {}

  @Override
  public void notUnderstood(int type) {
    throw new AssertionError("type=" + type);
  }
}
