package bellwire.simbench.cable;

import bellwire.board.BoardDescription;
import bellwire.link.Tap;
import bellwire.simbench.AnalogSide;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.circuit.Circuit;
import bellwire.simbench.circuit.Solution;
import bellwire.simbench.file.Bench;

/**
 * The board's analogue side with a bench's cable on it. Time comes with every call and never runs
 * backwards; between calls the hardware interlock acts by itself. The same bench and seed repeat
 * bit for bit. A conversion's plus tap is read through multiplexer A and its minus tap through B.
 */
public final class SimulatedCopper implements AnalogSide {
  /** Shorter openings and touches are the event path's alone. */
  static final long SLOW_FAULT_NANOS = 1_000_000_000L;

  /** Told what relays and wetting are after each change, and maybe without one. */
  interface SwitchWatch {
    void switched(boolean relaysClosed, boolean wetted, long nanos);
  }

  private final Epochs epochs;
  private final Topologies topologies;
  private final BoardCircuit board;
  private final Interlock interlock = new Interlock();
  private final WindowWatch watch;
  private final DiodeWatch diodes;
  private final CalmSwitching switching;
  private final long exciteMask;
  private final Truth truth;
  private final CopperHistory history;

  private long now;
  private long quietUntilNanos = Long.MIN_VALUE;
  private long chain;
  private boolean testLoad;
  private boolean excited;
  private boolean wettingAsked;
  private boolean wetted;
  private int conducting;
  private SwitchWatch switchWatch = (relays, wet, nanos) -> {};

  public SimulatedCopper(Bench bench) {
    this(bench, bench.seed());
  }

  /**
   * @param seed in place of the bench's own
   */
  public SimulatedCopper(Bench bench, long seed) {
    Draws draws = new Draws(seed);
    BoardDescription description = BoardDescription.revisionA();
    epochs = new Epochs(bench, seed, SLOW_FAULT_NANOS);
    topologies = new Topologies(bench, draws, epochs.current());
    board = topologies.board();
    SenseTaps taps = new SenseTaps(bench, draws, board);
    truth = new Truth(bench, seed, topologies.cable(), epochs.planned());
    diodes = new DiodeWatch(topologies.cable().attached().diodes());
    watch = new WindowWatch(Interlock.nanos(description, "detect-micros"));
    switching = new CalmSwitching(watch);
    exciteMask = 1L << description.chainBit("excite");
    double swingVolts = description.limit("transimpedance-swing-volts");
    history = new CopperHistory(board, taps, swingVolts);
    begin(new double[topologies.lastingNodes() + topologies.inductors()], 0);
  }

  /** What is really there: for tests only, never for the host. */
  public Truth truth() {
    return truth;
  }

  /** The coded plug's arms, as they are and as they are stored under its number. */
  public PlugArms plug() {
    return topologies.cable().arms();
  }

  @Override
  public void latchChain(long word, long nanos) {
    advance(nanos);
    if (nanos < quietUntilNanos && switching.take(word, nanos)) {
      chain = word;
      return;
    }
    look();
    CopperHistory.Piece before = history.last();
    boolean mayLearn = diodes.none() && !interlock.tripped() && !excited && !board.stage(chain);
    chain = word;
    excite();
    proceed();
    if (!mayLearn || excited || board.stage(word) || current().startNanos() != now) {
      switching.forget();
      return;
    }
    WindowWatch.Window window = interlock.window(wetted);
    if (switching.learn(before.chain(), before.solution(), word, current(), window)
        && watch.takeForCalm(current(), window)) {
      rest();
    }
  }

  /** Goes through what was left for later. */
  private void look() {
    if (switching.waiting()) {
      switching.replay(
          (word, system, nanos) -> {
            double[] from = new double[topologies.lastingNodes() + topologies.inductors()];
            history.restart(new Solution(system, 0, nanos, from), word);
          },
          (word, nanos) -> {
            chain = word;
            begin(current().state(nanos), nanos);
          });
      watch.takeForCalm(current(), interlock.window(excited || wetted));
    }
  }

  /** Works out until when nothing can happen without being told. */
  private void rest() {
    boolean calm =
        diodes.none()
            && (switching.waiting() || watch.calm(current(), interlock.window(excited || wetted)));
    quietUntilNanos = calm ? Math.min(interlock.nextEvent(), epochs.nextNanos()) : Long.MIN_VALUE;
  }

  @Override
  public void control(boolean connect, boolean testLoad, long nanos) {
    advance(nanos);
    look();
    interlock.connect(connect, now);
    this.testLoad = testLoad;
    changed();
  }

  @Override
  public void wetting(boolean on, long nanos) {
    advance(nanos);
    look();
    wettingAsked = on;
    excite();
    changed();
  }

  /** Whether the event path's wetting is on. */
  public boolean wetted(long nanos) {
    advance(nanos);
    return wetted;
  }

  @Override
  public void heartbeat(long nanos) {
    advance(nanos);
    interlock.heartbeat(now);
    rest();
  }

  @Override
  public void rearm(long nanos) {
    advance(nanos);
    look();
    if (interlock.tripped() && outsidePorts() == 0) {
      interlock.clear(now);
      watch.reset();
      excite();
      changed();
    }
  }

  /** The interlock as it is when the board's supply comes on. */
  public void powerOn(long nanos) {
    advance(nanos);
    look();
    interlock.powerOn(now);
    watch.reset();
    excite();
    changed();
  }

  @Override
  public boolean tripped(long nanos) {
    advance(nanos);
    return interlock.tripped();
  }

  @Override
  public boolean outside(long nanos) {
    advance(nanos);
    return outsidePorts() != 0;
  }

  @Override
  public int tripFlags(long nanos) {
    advance(nanos);
    return interlock.flags();
  }

  @Override
  public boolean connected(long nanos) {
    advance(nanos);
    return interlock.relaysClosed();
  }

  /** Whether the excitation stands at its voltage. */
  public boolean excited(long nanos) {
    advance(nanos);
    return excited;
  }

  @Override
  public Seen convert(Tap plus, Tap minus, FilterKernel filter, long startNanos) {
    long end = startNanos + filter.lengthNanos();
    if (end > now) {
      advance(end);
    }
    look();
    return history.seen(plus, minus, filter, startNanos);
  }

  private int outsidePorts() {
    if (now < switching.insideFromNanos()) {
      look();
      return WindowWatch.outside(current(), interlock.window(excited || wetted), now);
    } else if (now < quietUntilNanos) {
      return 0;
    }
    WindowWatch.Window window = interlock.window(excited || wetted);
    return watch.allInside(current(), window, now, now)
        ? 0
        : WindowWatch.outside(current(), window, now);
  }

  private Solution current() {
    return history.last().solution();
  }

  /** Lets the hardware do all that is due up to a time. */
  private void advance(long nanos) {
    if (nanos < now) {
      throw new IllegalArgumentException("nanos=" + nanos + " before " + now);
    }
    if (nanos < quietUntilNanos) {
      now = nanos;
      return;
    }
    look();
    goOn(nanos);
    rest();
  }

  private void goOn(long nanos) {
    while (true) {
      long nextEpoch = epochs.nextNanos();
      long event = Math.min(interlock.nextEvent(), nextEpoch);
      long turn = diodes.firstTurn(current(), conducting, now, Math.min(event, nanos));
      event = Math.min(event, turn);
      long stop = Math.min(event, nanos);
      WindowWatch.Window window = interlock.window(excited || wetted);
      if (interlock.tripped()) {
        if (!watch.allInside(current(), window, now, stop)) {
          interlock.flag(WindowWatch.everOutside(current(), window, now, stop, interlock.flags()));
        }
      } else {
        long trip = watch.firstTrip(current(), window, now, stop);
        if (trip != WindowWatch.NEVER) {
          now = trip;
          interlock.trip(WindowWatch.outside(current(), window, now), now);
          watch.reset();
          excite();
          changed();
          continue;
        }
      }
      now = stop;
      if (event > nanos) {
        return;
      }
      interlock.happen(now);
      if (nextEpoch <= now) {
        epochs.turn();
      }
      if (turn <= now) {
        conducting = diodes.conducting(current(), conducting, now);
      }
      changed();
    }
  }

  private void excite() {
    boolean before = excited || wetted;
    excited = (chain & exciteMask) != 0 && !interlock.tripped();
    wetted = wettingAsked && !interlock.tripped();
    boolean after = excited || wetted;
    if (after && !before) {
      interlock.excitationBegan();
    } else if (!after && before) {
      interlock.excitationEnded(now);
    }
  }

  private BoardCircuit.Switches switches() {
    return new BoardCircuit.Switches(
        board.circuitBits(chain), interlock.relaysClosed(), testLoad, wetted);
  }

  private void changed() {
    switching.forget();
    proceed();
  }

  /** Goes on from the present voltages if the circuit or a source changed. */
  private void proceed() {
    CopperHistory.Piece last = history.last();
    boolean same =
        last.solution().system() == topologies.system(epochs.current(), switches(), conducting)
            && last.solution().excited() == excited
            && last.chain() == chain;
    if (!same) {
      double[] state = last.solution().state(now);
      begin(state, now);
    }
    rest();
    switchWatch.switched(interlock.relaysClosed(), wetted, now);
  }

  /** Whoever is to be told when relays or wetting change, at the latest when time is asked for. */
  void tell(SwitchWatch watch) {
    switchWatch = watch;
  }

  Topologies topologies() {
    return topologies;
  }

  private void begin(double[] state, long nanos) {
    history.add(
        new Solution(
            topologies.system(epochs.current(), switches(), conducting),
            excited ? 1 : 0,
            nanos,
            carried(state)),
        chain);
  }

  /** A stage that was not in use begins with its capacitor empty. */
  private double[] carried(double[] state) {
    int coils = topologies.inductors();
    int volts = topologies.lastingNodes() + (board.stage(chain) ? 1 : 0);
    int had = state.length - coils;
    double[] carried = new double[volts + coils];
    System.arraycopy(state, 0, carried, 0, Math.min(had, volts));
    System.arraycopy(state, had, carried, volts, coils);
    return carried;
  }

  /** The whole circuit in its present switch state. */
  public Circuit circuit(long nanos) {
    advance(nanos);
    return topologies.circuit(epochs.current(), switches());
  }

  /** The present solution: observed nodes are the terminals by port, then drive and return bus. */
  public Solution solution(long nanos) {
    advance(nanos);
    look();
    return current();
  }

  /** Node numbers of the voltages in {@link Solution#state}; inductors' currents follow those. */
  public int[] stateNodes(long nanos) {
    advance(nanos);
    return topologies.stateNodes(switches());
  }
}
