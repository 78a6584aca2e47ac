package bellwire.simbench;

import bellwire.agent.Agent;
import bellwire.agent.EndpointLink;
import bellwire.agent.record.FrameLog;
import bellwire.agent.record.RecordSettings;
import bellwire.board.BoardDescription;
import bellwire.link.ByteChannel;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.control.Operation;
import bellwire.simbench.control.SimulatedControl;
import bellwire.simbench.file.Bench;
import bellwire.simbench.pi4j.SimulatedPi;
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

  private final BytePipe toHost = new BytePipe();
  private final BytePipe toAgent = new BytePipe();
  private final SimulatedBoard board;
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
    board = new SimulatedBoard(bench, seed);
    BoardDescription description = board.description();
    rate = 1 + bench.board().clockDrift();
    jitterNanos = bench.board().tickJitterNanos();
    steps = board.steps();
    pi = SimulatedPi.open(board.chips(), description);
    long bootId = board.bootId();
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
    long until = board.nanos() + micros * 1000;
    while (nextNanos <= until) {
      board.advanceTo(nextNanos);
      long now = agentNanos();
      if (!frozen) {
        agent.step(now / 1000, Math.min(now, dueNanos) / 1000);
      }
      dueNanos = Math.max(dueNanos + TICK_NANOS, now + TICK_NANOS / 4);
      nextNanos = (long) Math.ceil((dueNanos + late()) / rate);
    }
    board.advanceTo(until);
  }

  /** Operates the bench's control now, as {@link SimulatedBoard#operate}. */
  public void operate(Operation operation) {
    board.operate(operation);
  }

  /** The agent's clock: the bench's time as a crystal a little off counts it. */
  private long agentNanos() {
    return rate == 1 ? board.nanos() : (long) (board.nanos() * rate);
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
    return board.nanos() / 1000;
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
    return board.relaysClosed();
  }

  /** What is really there: for tests only, never for a host. */
  public SimulatedCopper copper() {
    return board.copper();
  }

  /** The control that is really there, if any: for tests only, never for a host. */
  public Optional<SimulatedControl> control() {
    return board.control();
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
