package bellwire.simbench;

import bellwire.agent.Agent;
import bellwire.agent.EndpointLink;
import bellwire.agent.record.FrameLog;
import bellwire.agent.record.RecordSettings;
import bellwire.board.BoardDescription;
import bellwire.link.ByteChannel;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.cable.WettedCopper;
import bellwire.simbench.chip.BoardChips;
import bellwire.simbench.chip.CallInputs;
import bellwire.simbench.chip.ConverterErrors;
import bellwire.simbench.control.Operation;
import bellwire.simbench.control.SimulatedControl;
import bellwire.simbench.file.Bench;
import bellwire.simbench.pi4j.SimulatedPi;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * A whole device on the simulated bench: the production agent on simulated chips in front of
 * simulated copper, with a serial line at its other end. Nothing of the bench reaches the line but
 * what the agent reads from chip registers. Its time moves only in {@link #run}; a bench and a seed
 * repeat bit for bit.
 */
public final class SimulatedDevice implements AutoCloseable {
  private static final long TICK_NANOS = 1_000_000;

  /** One step in so many is late by up to so many times the bench's jitter. */
  private static final int SELDOM = 1000;

  private static final int FAR = 10;

  private static final int BAUD = 921_600;

  /**
   * A disk of the agent's own. Its work is done within the agent's steps, so that a run repeats.
   *
   * @param settings where, and how much
   * @param start how often the device was started with it before, which makes the boot another
   */
  public record Disk(RecordSettings settings, int start) {}

  private final VirtualClock clock = new VirtualClock();
  private final BytePipe toHost = new BytePipe();
  private final BytePipe toAgent = new BytePipe();
  private final SimulatedCopper copper;
  private final Optional<SimulatedControl> control;
  private final Deque<Bench.Action> actions = new ArrayDeque<>();
  private final SimulatedPi pi;
  private final Optional<FrameLog> log;
  private final EndpointLink link;
  private final Agent agent;
  private final double rate;
  private final double jitterNanos;
  private final SplittableRandom steps;
  private boolean frozen;
  private long dueNanos;
  private long nextNanos;

  public SimulatedDevice(Bench bench) {
    this(bench, bench.seed());
  }

  /**
   * @param seed of every draw, in place of the bench's own
   */
  public SimulatedDevice(Bench bench, long seed) {
    this(bench, seed, 1);
  }

  /**
   * @param speed the bench's seconds in one second of the host, in which the link's timeouts count
   */
  public SimulatedDevice(Bench bench, long seed, double speed) {
    this(bench, seed, speed, Optional.empty());
  }

  /**
   * @param speed the bench's seconds in one second of the host, in which the link's timeouts count
   */
  public SimulatedDevice(Bench bench, long seed, double speed, Optional<Disk> disk) {
    BoardDescription description = BoardDescription.revisionA();
    SplittableRandom random = new SplittableRandom(seed ^ 0x5DEECE66DL);
    copper = new SimulatedCopper(bench, seed);
    control =
        bench
            .control()
            .map(c -> new SimulatedControl(c.setup(), c.leads(), seed ^ 0x2545F4914F6CDD1DL));
    bench.control().ifPresent(c -> actions.addAll(c.actions()));
    ConverterErrors errors = ConverterErrors.draw(description, bench.board().noise(), random);
    SplittableRandom others = new SplittableRandom(seed ^ 0x9E3779B97F4A7C15L);
    CallInputs inputs = new CallInputs(description, this::callVolts, clock, others.split());
    WettedCopper events = new WettedCopper(bench, seed, copper);
    BoardChips chips =
        new BoardChips(description, copper, inputs, events, clock, errors, random.split());
    rate = 1 + bench.board().clockDrift();
    jitterNanos = bench.board().tickJitterNanos();
    steps = others.split();
    pi = SimulatedPi.open(chips, description);
    long bootId = 1 + random.nextLong(Long.MAX_VALUE - 1);
    log = disk.map(own -> log(own, bootId));
    link = link(log, boot(bootId, disk), description.revision());
    agent =
        new Agent(
            pi.sensingBoard(),
            description,
            new LineTime(link, speed),
            TICK_NANOS / 1000,
            () -> agentNanos() / 1000);
  }

  private static long boot(long drawn, Optional<Disk> disk) {
    long start = disk.map(Disk::start).orElse(0);
    return 1 + Math.floorMod(drawn - 1 + start * 0x9E3779B97F4A7C15L, Long.MAX_VALUE);
  }

  private static FrameLog log(Disk disk, long drawn) {
    return FrameLog.inStep(
        disk.settings(), boot(drawn, Optional.of(disk)), EndpointLink.memory(BAUD));
  }

  private EndpointLink link(Optional<FrameLog> record, long boot, String revision) {
    ByteChannel line = new AgentEnd();
    return record.isEmpty()
        ? EndpointLink.open(line, boot, "simulated", revision, BAUD)
        : EndpointLink.open(line, boot, "simulated", revision, BAUD, record.get());
  }

  /** Lets the device run on. */
  public void run(long micros) {
    long until = clock.nanos() + micros * 1000;
    while (nextNanos <= until) {
      act(nextNanos);
      clock.advanceTo(Math.max(nextNanos, clock.nanos()));
      long now = agentNanos();
      if (!frozen) {
        agent.step(now / 1000, Math.min(now, dueNanos) / 1000);
      }
      dueNanos = Math.max(dueNanos + TICK_NANOS, now + TICK_NANOS / 4);
      nextNanos = (long) Math.ceil((dueNanos + late()) / rate);
    }
    act(until);
    clock.advanceTo(until);
  }

  /** What the bench file has its operator do up to a moment. */
  private void act(long nanos) {
    while (!actions.isEmpty() && actions.getFirst().atNanos() <= nanos) {
      Bench.Action action = actions.removeFirst();
      clock.advanceTo(Math.max(action.atNanos(), clock.nanos()));
      operate(action.operation());
    }
  }

  /**
   * Operates the bench's control now.
   *
   * @throws IllegalStateException where the bench has none
   */
  public void operate(Operation operation) {
    control
        .orElseThrow(() -> new IllegalStateException("the bench has no control"))
        .operate(operation, clock.nanos());
  }

  /**
   * What hangs on the call-sense connector. The inputs look a little back, but never behind what
   * was done to the control or seen of it.
   */
  private double callVolts(int lead, boolean wetting, boolean load, long nanos) {
    if (control.isEmpty()) {
      return 0;
    }
    SimulatedControl there = control.get();
    return there.volts(lead, wetting, load, Math.max(nanos, there.nanos()));
  }

  /** The agent's clock: the bench's time as a crystal a little off counts it. */
  private long agentNanos() {
    return rate == 1 ? clock.nanos() : (long) (clock.nanos() * rate);
  }

  private double late() {
    if (jitterNanos == 0) {
      return 0;
    }
    double late = jitterNanos * steps.nextDouble();
    return steps.nextInt(SELDOM) == 0 ? FAR * late : late;
  }

  /** Stops or resumes the agent's steps while the bench's time goes on, as a hung program would. */
  public void freezeAgent(boolean freeze) {
    frozen = freeze;
  }

  public long micros() {
    return clock.micros();
  }

  /** Bytes that the agent has sent, up to the array's length; 0 for none. */
  public int read(byte[] into) {
    return toHost.read(into);
  }

  /** Bytes to the agent. */
  public void write(byte[] bytes, int off, int len) {
    toAgent.write(bytes, off, len);
  }

  /** Whether the connect relays are closed at this moment. */
  public boolean relaysClosed() {
    return copper.connected(clock.nanos());
  }

  /** What is really there: for tests only, never for a host. */
  public SimulatedCopper copper() {
    return copper;
  }

  /** The control that is really there, if any: for tests only, never for a host. */
  public Optional<SimulatedControl> control() {
    return control;
  }

  /** Ends it as a power cut would: of what its disk holds, only what was written is left. */
  public void kill() {
    log.ifPresent(FrameLog::abandon);
    pi.close();
  }

  @Override
  public void close() {
    link.close();
    pi.close();
  }

  /** The agent's side of the serial line. */
  private final class AgentEnd implements ByteChannel {
    @Override
    public int read(byte[] into) {
      return toAgent.read(into);
    }

    @Override
    public void write(byte[] bytes, int off, int len) {
      toHost.write(bytes, off, len);
    }
  }
}
