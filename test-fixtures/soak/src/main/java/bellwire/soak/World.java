package bellwire.soak;

import bellwire.agent.record.RecordSettings;
import bellwire.app.link.Transport;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.chip.FaultyLine.Fault;
import bellwire.simbench.control.SimulatedControl;
import bellwire.soak.Mishap.Kind;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * The device of a scenario and the line to it, in the scenario's time, which passes only here. Each
 * mishap begins and ends at its moment, and at every look the board is held to what must never be.
 */
final class World implements Transport, AutoCloseable {
  private static final long LOOK_MICROS = 1000;

  /** Until a tripped board has let go, as in the board's notes. */
  private static final long RELEASE_MICROS = 2000;

  /** Between two waits of the host. */
  private static final long MOST_READS = 1_000_000;

  private static final long RECORD_BYTES = 16 << 20;
  private static final Fault[] STUCK = {Fault.STUCK_LOW, Fault.STUCK_HIGH, Fault.UNHEARD};

  /**
   * A stretch of the agent's life, in which its clock ran on.
   *
   * @param micros bench time at which its clock stood at 0
   * @param fromMicros bench time of the program's start
   * @param untilMicros of its end
   */
  record Boot(long boot, long micros, long fromMicros, long untilMicros) {}

  /** A contact, from 0 for X1, that has closed or opened. */
  record Turn(int lead, boolean closed, long micros) {}

  private final Scenario scenario;
  private final SimulatedDevice device;
  private final Deque<Mishap> coming;
  private final List<Mishap> on = new ArrayList<>();
  private final double[] strength = new double[Kind.values().length];
  private final Wire toHost;
  private final Wire toAgent;
  private final byte[] buffer = new byte[1 << 16];
  private final List<Boot> boots = new ArrayList<>();
  private final List<Mishap> sources;
  private byte[] arrived = new byte[0];
  private long idleReads;
  private final List<Turn> turns = new ArrayList<>();
  private boolean callsWatched;
  private long outsideSinceMicros = Long.MAX_VALUE;
  private int closed;
  private int taken;
  private boolean hostRuns;
  private boolean hostKilled;
  private long clockStepMicros;
  private long trippedSinceMicros;
  private boolean tripped = true;
  private long fingerprint = 17;
  long looks;
  long connectedLooks;
  long trips;

  World(Scenario scenario, Path record) {
    this.scenario = scenario;
    SplittableRandom random = new SplittableRandom(scenario.bench().seed() ^ 0xB0A7L);
    toHost = new Wire(random.split());
    toAgent = new Wire(random.split());
    coming = new ArrayDeque<>(scenario.mishaps());
    sources = scenario.mishaps().stream().filter(m -> m.kind() == Kind.FOREIGN_VOLTAGE).toList();
    SimulatedDevice.Disk disk =
        new SimulatedDevice.Disk(new RecordSettings(record, RECORD_BYTES), 0);
    device = new SimulatedDevice(scenario.bench(), scenario.bench().seed(), 1, Optional.of(disk));
    boot(0);
  }

  private void boot(long poweredMicros) {
    boots.add(new Boot(device.bootId(), poweredMicros, device.micros(), Long.MAX_VALUE));
  }

  private void endBoot() {
    Boot last = boots.remove(boots.size() - 1);
    boots.add(new Boot(last.boot(), last.micros(), last.fromMicros(), nowMicros()));
  }

  SimulatedDevice device() {
    return device;
  }

  List<Boot> boots() {
    return boots;
  }

  /** Whether a mishap of this kind is on. */
  boolean is(Kind kind) {
    return strength[kind.ordinal()] > 0;
  }

  /** The host's wall clock, which somebody or something sets now and then. */
  long unixMicros() {
    return 1_780_000_000_000_000L + nowMicros() + clockStepMicros;
  }

  /** Until the killed program can be started again. */
  void awaitHost() {
    hostRuns(false);
    while (is(Kind.HOST_KILLED)) {
      pass(nowMicros() + 10_000);
    }
  }

  /** The host's program begins or ends: only one that runs can be killed. */
  void hostRuns(boolean runs) {
    hostRuns = runs;
    hostKilled = false;
    arrived = new byte[0];
    taken = 0;
  }

  long fingerprint() {
    return fingerprint;
  }

  long spoilt() {
    return toHost.spoilt + toAgent.spoilt;
  }

  @Override
  public long nowMicros() {
    return device.micros();
  }

  @Override
  public void await(long micros) {
    idleReads = 0;
    long until = nowMicros() + micros;
    while (nowMicros() < until) {
      alive();
      long next = Math.min(until, nowMicros() + LOOK_MICROS);
      if (!coming.isEmpty()) {
        next = Math.min(next, Math.max(nowMicros(), coming.peek().micros()));
      }
      for (Mishap each : on) {
        next = Math.min(next, Math.max(nowMicros(), each.untilMicros()));
      }
      if (next > nowMicros()) {
        device.run(next - nowMicros());
      }
      turn();
      look();
    }
    alive();
  }

  /** Lets time pass without a host, to a moment. */
  void pass(long untilMicros) {
    if (untilMicros > nowMicros()) {
      await(untilMicros - nowMicros());
    }
  }

  /** What is over ends, what is due begins. */
  private void turn() {
    long now = nowMicros();
    for (Mishap each : List.copyOf(on)) {
      if (each.untilMicros() <= now) {
        on.remove(each);
        strength[each.kind().ordinal()] = 0;
        end(each);
      }
    }
    while (!coming.isEmpty() && coming.peek().micros() <= now) {
      Mishap each = coming.remove();
      on.add(each);
      strength[each.kind().ordinal()] = each.amount() == 0 ? 1 : each.amount();
      begin(each);
    }
  }

  private void begin(Mishap mishap) {
    switch (mishap.kind()) {
      case AGENT_HELD -> device.freezeAgent(true);
      case AGENT_KILLED -> {
        endBoot();
        device.kill();
      }
      case POWER_CUT -> {
        endBoot();
        device.cutPower();
      }
      case HOST_KILLED -> hostKilled = hostRuns;
      case CLOCK_STEP -> clockStepMicros += Math.round(1e6 * mishap.amount());
      case CHIP_STUCK -> device.device(mishap.what()).fail(STUCK[(int) mishap.amount()], 0);
      case CHIP_FLIPS -> device.device(mishap.what()).fail(Fault.BIT_FLIPS, mishap.amount());
      default -> {}
    }
  }

  private void end(Mishap mishap) {
    switch (mishap.kind()) {
      case AGENT_HELD -> device.freezeAgent(false);
      case AGENT_KILLED -> {
        device.start();
        boot(boots.get(boots.size() - 1).micros());
      }
      case POWER_CUT -> {
        device.power();
        boot(nowMicros());
      }
      case CHIP_STUCK, CHIP_FLIPS -> device.device(mishap.what()).fail(Fault.NONE, 0);
      default -> {}
    }
  }

  private void alive() {
    if (hostKilled) {
      hostKilled = false;
      throw new HostGone();
    }
  }

  /** From here on, or no more, each turn of a contact is noted. */
  void watchCalls(boolean watch) {
    callsWatched = watch;
    turns.clear();
    closed = 0;
  }

  /** Turns of the control's contacts since they are watched. */
  List<Turn> turns() {
    return turns;
  }

  private void lookAtCalls(long micros) {
    SimulatedControl control = device.control().orElseThrow();
    for (int lead = 0; lead < Scenario.LEADS.size(); lead++) {
      boolean now = control.closed(Scenario.LEADS.get(lead), micros * 1000);
      if (now != ((closed >>> lead & 1) != 0)) {
        closed ^= 1 << lead;
        turns.add(new Turn(lead, now, micros));
      }
    }
  }

  /** What must never be. */
  private void look() {
    long micros = nowMicros();
    long nanos = micros * 1000;
    if (callsWatched) {
      lookAtCalls(micros);
    }
    boolean connected = device.copper().connected(nanos);
    boolean driven = device.copper().excited(nanos) || device.copper().wetted(nanos);
    boolean now = device.copper().tripped(nanos);
    looks++;
    connectedLooks += connected ? 1 : 0;
    trips += now && !tripped ? 1 : 0;
    trippedSinceMicros = now && !tripped ? micros : trippedSinceMicros;
    tripped = now;
    if (tripped && micros - trippedSinceMicros > RELEASE_MICROS && (connected || driven)) {
      throw new Broken("connected or driven while the interlock is tripped");
    }
    // Where a plug shorts it, a source may stay inside the window until the excitation adds to it.
    boolean outside = device.copper().outside(nanos);
    outsideSinceMicros = outside ? Math.min(outsideSinceMicros, micros) : Long.MAX_VALUE;
    if (outside && (!tripped || connected || driven)) {
      for (Mishap source : sources) {
        long since = Math.max(source.micros(), outsideSinceMicros);
        if (micros - since > RELEASE_MICROS && micros < source.untilMicros()) {
          throw new Broken("connected, driven or armed on a live cable: " + source);
        }
      }
    }
  }

  @Override
  public int read(byte[] into) {
    alive();
    if (++idleReads > MOST_READS) {
      throw new Broken("the host reads on and on, and lets no time pass");
    }
    if (taken == arrived.length) {
      int read = device.read(buffer);
      arrived = toHost.carry(Arrays.copyOf(buffer, read), strength);
      taken = 0;
    }
    int n = Math.min(into.length, arrived.length - taken);
    System.arraycopy(arrived, taken, into, 0, n);
    taken += n;
    for (int i = 0; i < n; i++) {
      fingerprint = fingerprint * 31 + into[i];
    }
    fingerprint = n == 0 ? fingerprint : fingerprint * 31 + nowMicros();
    return n;
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    alive();
    byte[] sent = toAgent.carry(Arrays.copyOfRange(bytes, off, off + len), strength);
    device.write(sent, 0, sent.length);
  }

  @Override
  public boolean away() {
    return is(Kind.LINE_CUT);
  }

  @Override
  public String name() {
    return "the line of seed " + scenario.seed();
  }

  /** The device outlives its host. */
  @Override
  public void close() {}

  void end() {
    device.close();
  }
}
