package bellwire.simbench;

import bellwire.board.BoardDescription;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.cable.WettedCopper;
import bellwire.simbench.chip.BoardChips;
import bellwire.simbench.chip.CallInputs;
import bellwire.simbench.chip.ConverterErrors;
import bellwire.simbench.control.Operation;
import bellwire.simbench.control.SimulatedControl;
import bellwire.simbench.file.Bench;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * The board of a bench without its agent: chips in front of simulated copper, a control where the
 * bench has one, and the bench's time. Whoever reads the chips moves the time on.
 */
public final class SimulatedBoard {
  private final VirtualClock clock = new VirtualClock();
  private final BoardDescription description = BoardDescription.revisionA();
  private final SimulatedCopper copper;
  private final Optional<SimulatedControl> control;
  private final Deque<Bench.Action> actions = new ArrayDeque<>();
  private final BoardChips chips;

  /** Draws go on from here: the order of draws is what makes a seed repeat. */
  private final SplittableRandom random;

  private final SplittableRandom others;

  /**
   * @param seed of every draw
   */
  public SimulatedBoard(Bench bench, long seed) {
    random = new SplittableRandom(seed ^ 0x5DEECE66DL);
    copper = new SimulatedCopper(bench, seed);
    control =
        bench
            .control()
            .map(c -> new SimulatedControl(c.setup(), c.leads(), seed ^ 0x2545F4914F6CDD1DL));
    bench.control().ifPresent(c -> actions.addAll(c.actions()));
    ConverterErrors errors = ConverterErrors.draw(description, bench.board().noise(), random);
    others = new SplittableRandom(seed ^ 0x9E3779B97F4A7C15L);
    CallInputs inputs = new CallInputs(description, this::callVolts, clock, others.split());
    WettedCopper events = new WettedCopper(bench, seed, copper);
    chips = new BoardChips(description, copper, inputs, events, clock, errors, random.split());
  }

  /** Moves the time on, and has the bench file's operator do what is due by then. */
  public void advanceTo(long nanos) {
    while (!actions.isEmpty() && actions.getFirst().atNanos() <= nanos) {
      Bench.Action action = actions.removeFirst();
      clock.advanceTo(Math.max(action.atNanos(), clock.nanos()));
      operate(action.operation());
    }
    clock.advanceTo(Math.max(nanos, clock.nanos()));
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

  /** The board's supply fails for a moment: chips and interlock as at power-on. */
  public void powerFails() {
    chips.powerOn();
    copper.powerOn(clock.nanos());
  }

  /** Since the bench's start. */
  public long nanos() {
    return clock.nanos();
  }

  public BoardDescription description() {
    return description;
  }

  public BoardChips chips() {
    return chips;
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

  /** A draw for the lateness of the agent's steps. */
  SplittableRandom steps() {
    return others.split();
  }

  /** A draw for the boot's number, above zero. */
  long bootId() {
    return 1 + random.nextLong(Long.MAX_VALUE - 1);
  }
}
