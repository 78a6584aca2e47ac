package bellwire.simbench.control;

import bellwire.simbench.control.ControlSetup.PowerSource;
import bellwire.simbench.control.ControlSetup.Timing;
import bellwire.simbench.control.Operation.Fan;
import bellwire.simbench.control.Operation.Mode;

/**
 * A control's program: what it wants of each terminal, with delays, rests and the calls that must
 * not meet. It looks again only when something can have changed.
 */
final class Regulator {
  private static final long LONG_AGO = Long.MIN_VALUE / 2;

  /** Each of its outputs changes twice in one moment at most. */
  private static final int MAX_PASSES = 16;

  private final ControlSetup setup;
  private final Kind kind;
  private final Timing timing;

  /** Whether it heats with the compressor, as it was set up. */
  private final boolean pump;

  private final String valve;
  private final Demand demand;
  private final Outputs outputs;
  private final Alarm alarm;
  private Fan fan = Fan.AUTO;
  private boolean powered = true;
  private boolean down;
  private long lostNanos = LONG_AGO;
  private long startedNanos = LONG_AGO;
  private long operatedNanos = LONG_AGO;
  private long restedNanos = LONG_AGO;
  private long fanReleasedNanos = LONG_AGO;
  private boolean onFuel;

  Regulator(ControlSetup setup, long seed) {
    this.setup = setup;
    kind = setup.kind();
    timing = setup.timing();
    boolean wrong = setup.has(Defect.WRONG_EQUIPMENT);
    pump = kind.heatPump() != wrong;
    valve = wrong ? "" : kind.valve();
    demand = new Demand(setup.driftKelvinPerHour());
    outputs = new Outputs(setup, seed);
    alarm = new Alarm();
  }

  /** A copy that can be run ahead. */
  Regulator(Regulator other) {
    setup = other.setup;
    kind = other.kind;
    timing = other.timing;
    pump = other.pump;
    valve = other.valve;
    demand = new Demand(other.demand);
    outputs = new Outputs(other.outputs);
    alarm = new Alarm(other.alarm);
    fan = other.fan;
    powered = other.powered;
    down = other.down;
    lostNanos = other.lostNanos;
    startedNanos = other.startedNanos;
    operatedNanos = other.operatedNanos;
    restedNanos = other.restedNanos;
    fanReleasedNanos = other.fanReleasedNanos;
    onFuel = other.onFuel;
  }

  Outputs outputs() {
    return outputs;
  }

  /** Whether its supplies are on. */
  boolean powered() {
    return powered;
  }

  /** When it must look again. */
  long next() {
    return alarm.next();
  }

  void operate(Operation operation, long nanos) {
    operatedNanos = nanos;
    if (operation.mode() != null) {
      demand.mode(operation.mode());
    }
    if (operation.fan() != null) {
      fan = operation.fan();
    }
    if (operation.setKelvin() != null) {
      demand.set(operation.setKelvin(), nanos);
    }
    if (operation.power() != null && operation.power() != powered) {
      power(operation.power(), nanos);
    }
    look(nanos);
  }

  private void power(boolean on, long nanos) {
    powered = on;
    if (!on) {
      lostNanos = nanos;
    } else if (down) {
      down = false;
      boolean anew = setup.feed().source() == PowerSource.COMMON;
      startedNanos = anew ? nanos + own(setup.feed().bootSeconds()) : nanos;
      if (setup.has(Defect.SHORT_REST_AFTER_POWER_LOSS)) {
        restedNanos = nanos + own(setup.seconds(Defect.SHORT_REST_AFTER_POWER_LOSS));
      } else if (anew && setup.feed().restRestarts() && !setup.has(Defect.NO_REST)) {
        restedNanos = Math.max(restedNanos, nanos + own(timing.restSeconds()));
      }
    }
  }

  /** Looks at everything and commands what is due. */
  void look(long nanos) {
    int passes = 0;
    do {
      alarm.look(nanos);
      if (++passes > MAX_PASSES) {
        throw new IllegalStateException("a control that never settles: setup=" + setup);
      }
    } while (changes());
  }

  /** One pass; whether a command has changed, so that the rest has to be looked at again. */
  private boolean changes() {
    if (!powered) {
      if (!down && alarm.reached(lostNanos + own(setup.feed().holdUpMillis() * 1e-3))) {
        goDown();
      }
      return false;
    }
    if (!alarm.reached(startedNanos)) {
      return false;
    }
    demand.look(alarm);
    onFuel = kind == Kind.DUAL_FUEL && pumpHeat() && (onFuel || secondStage("Y1"));
    boolean compressor = compressor();
    boolean w1 = w1();
    boolean twoStage = kind == Kind.TWO_STAGE;
    boolean ran = outputs.on("Y1");
    boolean heated = outputs.on("W1");
    boolean changed = strive("G", fan(compressor, w1), Math.max(0, -timing.fanLeadSeconds()));
    changed |= strive(valve, valveWanted(), 0);
    changed |= strive("Y1", compressor, Math.max(0, timing.fanLeadSeconds()));
    changed |= strive("Y2", twoStage && compressor && secondStage("Y1"), 0);
    changed |= strive("W1", w1, kind.fanWithW1() ? Math.max(0, timing.fanLeadSeconds()) : 0);
    changed |= strive("W2", twoStage && w1 && secondStage("W1"), 0);
    if (ran && !outputs.on("Y1")) {
      rest();
      fanReleasedNanos = alarm.now();
    }
    if (heated && !outputs.on("W1") && kind.fanWithW1()) {
      fanReleasedNanos = alarm.now();
    }
    return changed;
  }

  private void goDown() {
    boolean ran = outputs.on("Y1");
    down = true;
    outputs.release(alarm.now());
    demand.forget();
    onFuel = false;
    fanReleasedNanos = LONG_AGO;
    if (ran) {
      rest();
    }
  }

  private void rest() {
    if (!setup.has(Defect.NO_REST)) {
      restedNanos = alarm.now() + own(timing.restSeconds());
    }
  }

  private boolean strive(String terminal, boolean wanted, double behindSeconds) {
    long due = operatedNanos + own(wanted ? timing.responseSeconds() : timing.dropOutSeconds());
    long behind = wanted ? own(behindSeconds) : 0;
    return outputs.strive(terminal, wanted, Math.max(alarm.now(), due) + behind, alarm);
  }

  private boolean heat() {
    boolean missing = setup.has(Defect.STAGE_MISSING) && !kind.secondHeat();
    return demand.heat() && !missing;
  }

  private boolean cool() {
    return demand.cool() && kind.cools();
  }

  private boolean emergency() {
    return demand.mode() == Mode.EMERGENCY && kind.emergency() && pump;
  }

  /** Whether heat is asked for that is the compressor's, or has been to begin with. */
  private boolean pumpHeat() {
    return heat() && pump && !emergency();
  }

  /** Whether heat is asked for that is W1's alone. */
  private boolean fuelHeat() {
    return heat() && (!pump || emergency() || onFuel);
  }

  private boolean compressorAsked() {
    return cool() || (pumpHeat() && !onFuel);
  }

  private boolean compressor() {
    if (!outputs.on("Y1")) {
      return compressorAsked() && startable() && valveReady();
    }
    if (compressorAsked() && valveRight()) {
      return true;
    }
    if (meetOnFuel() && !(outputs.on("W1") && passed("W1", setup.seconds(Defect.CALLS_MEET)))) {
      return true;
    }
    return demand.mode() != Mode.EMERGENCY && !passed("Y1", timing.minimumOnSeconds());
  }

  /** Whether nothing but the valve holds the compressor. */
  private boolean startable() {
    boolean together = kind.heatPump() && kind != Kind.DUAL_FUEL && !cool();
    return alarm.reached(restedNanos) && (together || apart("W1"));
  }

  private boolean apart(String terminal) {
    return !outputs.on(terminal) && passed(terminal, timing.changeoverSeconds());
  }

  /** Whether so long has passed since a terminal's last change. */
  private boolean passed(String terminal, double seconds) {
    return alarm.reached(outputs.changed(terminal) + own(seconds));
  }

  private boolean valveReady() {
    return valve.isEmpty() || (valveRight() && passed(valve, timing.valveLeadSeconds()));
  }

  /** Whether the valve is where what is asked for needs it. */
  private boolean valveRight() {
    return valve.isEmpty() || outputs.on(valve) == energised(cool());
  }

  private boolean energised(boolean cooling) {
    boolean right = (kind == Kind.HEAT_PUMP_B) != cooling;
    return right != setup.has(Defect.VALVE_REVERSED);
  }

  /** Never moved under a running compressor, nor at the moment of its stopping. */
  private boolean valveWanted() {
    if (valve.isEmpty()) {
      return false;
    }
    if (outputs.on("Y1") || !passed("Y1", timing.valveLeadSeconds())) {
      return outputs.on(valve);
    }
    if (compressorAsked() && startable()) {
      return energised(cool());
    }
    Mode mode = demand.mode();
    boolean rests = setup.valveRests() && (mode == Mode.HEAT || mode == Mode.COOL);
    return rests && energised(mode == Mode.COOL);
  }

  private boolean w1() {
    if (fuelHeat()) {
      return outputs.on("W1") || meetOnFuel() || apart("Y1");
    }
    if (cool()) {
      return setup.has(Defect.CALLS_MEET)
          && kind != Kind.DUAL_FUEL
          && outputs.on("Y1")
          && passed("Y1", setup.seconds(Defect.CALLS_MEET));
    }
    boolean auxiliary = kind.heatPump() && kind != Kind.DUAL_FUEL && pumpHeat();
    return auxiliary && secondStage("Y1");
  }

  /** Whether the furnace of dual fuel is to come while the compressor runs. */
  private boolean meetOnFuel() {
    return setup.has(Defect.CALLS_MEET) && kind == Kind.DUAL_FUEL && fuelHeat() && outputs.on("Y1");
  }

  private boolean secondStage(String first) {
    if (!demand.second() || !outputs.on(first) || (first.equals("Y1") && !valveRight())) {
      return false;
    }
    if (setup.has(Defect.STAGE_MISSING) && demand.heat()) {
      return false;
    }
    long from = outputs.changed(first);
    if (timing.stageFromDemand()) {
      from = Math.max(from, demand.secondNanos());
    }
    return alarm.reached(from + own(timing.stageSeconds()));
  }

  /** A furnace runs its own fan, and cuts short the overrun of what ran before. */
  private boolean fan(boolean compressor, boolean w1) {
    if (fan == Fan.ON && kind != Kind.HEAT_ONLY) {
      fanReleasedNanos = LONG_AGO;
      return true;
    }
    if (setup.has(Defect.FAN_NOT_CALLED)) {
      return false;
    }
    if (compressor || (w1 && kind.fanWithW1())) {
      return true;
    }
    if (w1 || !outputs.on("G") || timing.overrunSeconds() == 0) {
      return false;
    }
    boolean called = outputs.on("Y1") || (outputs.on("W1") && kind.fanWithW1());
    return called || !alarm.reached(fanReleasedNanos + own(timing.overrunSeconds()));
  }

  /** A time of its own in nanoseconds of the bench. */
  private long own(double seconds) {
    return Math.round(seconds * 1e9 * (1 + setup.clockError()));
  }
}
