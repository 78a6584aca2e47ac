package bellwire.simbench;

import bellwire.agent.Agent;
import bellwire.agent.EndpointLink;
import bellwire.agent.record.FrameLog;
import bellwire.agent.record.RecordSettings;
import bellwire.board.BoardDescription;
import bellwire.link.ByteChannel;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.chip.FaultyLine;
import bellwire.simbench.control.Operation;
import bellwire.simbench.control.SimulatedControl;
import bellwire.simbench.file.Bench;
import bellwire.simbench.pi4j.SimulatedPi;
import java.util.Optional;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;

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

  /** What runs on the Pi, from a start to its end. */
  private record Program(
      long boot, SimulatedPi pi, Optional<FrameLog> log, EndpointLink link, Agent agent) {}

  private final BytePipe toHost = new BytePipe();
  private final BytePipe toAgent = new BytePipe();
  private final SimulatedBoard board;
  private final long drawnBoot;
  private final double speed;
  private final Optional<Disk> disk;
  private final double rate;
  private final double jitterNanos;
  private final SplittableRandom steps;
  private @Nullable Program program;
  private int starts;
  private boolean frozen;

  /** Bench time at which the Pi got its power. */
  private long poweredNanos;

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
    this.speed = speed;
    this.disk = disk;
    rate = 1 + bench.board().clockDrift();
    jitterNanos = bench.board().tickJitterNanos();
    steps = board.steps();
    SimulatedPi pi = SimulatedPi.open(board.chips(), board.description());
    drawnBoot = board.bootId();
    program = program(pi);
  }

  private Program program(SimulatedPi pi) {
    BoardDescription description = board.description();
    long start = starts++ + disk.map(Disk::start).orElse(0);
    long boot = 1 + Math.floorMod(drawnBoot - 1 + start * 0x9E3779B97F4A7C15L, Long.MAX_VALUE);
    Optional<FrameLog> log =
        disk.map(own -> FrameLog.inStep(own.settings(), boot, EndpointLink.memory(BAUD)));
    EndpointLink link = link(log, boot, description.revision());
    Agent agent =
        new Agent(
            pi.sensingBoard(),
            description,
            new LineTime(link, speed),
            TICK_NANOS / 1000,
            () -> agentNanos() / 1000);
    return new Program(boot, pi, log, link, agent);
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
      if (!frozen && program != null) {
        program.agent().step(now / 1000, Math.min(now, dueNanos) / 1000);
      }
      dueNanos = Math.max(dueNanos + TICK_NANOS, now + TICK_NANOS / 4);
      nextNanos = poweredNanos + (long) Math.ceil((dueNanos + late()) / rate);
    }
    board.advanceTo(until);
  }

  /** Operates the bench's control now, as {@link SimulatedBoard#operate}. */
  public void operate(Operation operation) {
    board.operate(operation);
  }

  /** The agent's clock: the time since the Pi's start as a crystal a little off counts it. */
  private long agentNanos() {
    long nanos = board.nanos() - poweredNanos;
    return rate == 1 ? nanos : (long) (nanos * rate);
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

  /** Bytes to the agent; where none runs they are lost. */
  public void write(byte[] bytes, int off, int len) {
    if (program != null) {
      toAgent.write(bytes, off, len);
    }
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

  /**
   * Ends the agent's program at once: of what its disk holds, only what was written is left. The
   * board stays as it is, and its time goes on.
   */
  public void kill() {
    Program killed = program;
    program = null;
    if (killed != null) {
      killed.log().ifPresent(FrameLog::abandon);
      killed.pi().close();
      toAgent.clear();
    }
  }

  /** Starts the agent's program after {@link #kill}: another boot, on the same disk. */
  public void start() {
    if (program != null) {
      throw new IllegalStateException("runs already: starts=" + starts);
    }
    program = program(SimulatedPi.open(board.chips(), board.description()));
  }

  /** The power of Pi and board fails, until {@link #power}: nothing is driven, no relay held. */
  public void cutPower() {
    kill();
    board.powerFails();
  }

  /** The power is back: chips as at power-on, the clock of the Pi from 0, the program started. */
  public void power() {
    board.powerFails();
    poweredNanos = board.nanos();
    dueNanos = 0;
    nextNanos = poweredNanos;
    start();
  }

  @Override
  public void close() {
    Program last = program;
    program = null;
    if (last != null) {
      last.link().close();
      last.pi().close();
    }
  }

  /** What hangs on a chip select, by its name in the board description. */
  public FaultyLine device(String name) {
    return board.chips().device(name);
  }

  /** By which the agent's program at present knows its own start; 0 where none runs. */
  public long bootId() {
    return program == null ? 0 : program.boot();
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
