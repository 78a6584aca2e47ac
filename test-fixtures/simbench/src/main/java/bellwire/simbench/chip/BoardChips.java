package bellwire.simbench.chip;

import bellwire.board.BoardDescription;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import bellwire.simbench.AnalogSide;
import bellwire.simbench.EventSide;
import bellwire.simbench.VirtualClock;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;

/**
 * All chips of one sensing board, wired to each other and to the copper. Tap multiplexers and the
 * interlock's flags are wiring of the expanders' pins.
 */
public final class BoardChips {
  private final AnalogSide analog;
  private final EventSide events;
  private final VirtualClock clock;
  private final ConverterChip converter;
  private final ExpanderChip control;
  private final SwitchChain chain;
  private final Map<String, FaultyLine> devices = new HashMap<>();
  private final Tap[] fixedInputs = new Tap[16];
  private final int connectPin;
  private final int testLoadPin;
  private final int senseA;
  private final int senseB;
  private final int monitorA;
  private final int monitorB;
  private final int wettingPin;
  private final CallInputs calls;
  private final ExpanderChip callLoads;
  private boolean heartbeat;
  private final int eventWettingPin;
  private final int eventTouchPin;
  private final ExpanderChip eventWord;
  private final ExpanderChip eventLatches;
  private final ExpanderChip eventControl;
  private final List<ExpanderChip> expanders;
  private boolean rearm;
  private boolean capture;

  /**
   * @param random draws of noise and of faults; the same generator in the same state gives the same
   *     run
   */
  public BoardChips(
      BoardDescription board,
      AnalogSide analog,
      VirtualClock clock,
      ConverterErrors errors,
      RandomGenerator random) {
    this(board, analog, CallInputs.none(board, clock), EventSide.NONE, clock, errors, random);
  }

  /**
   * @param calls inputs of the call-sense connector, with what they meet
   * @param events what the event path's comparators meet
   */
  public BoardChips(
      BoardDescription board,
      AnalogSide analog,
      CallInputs calls,
      EventSide events,
      VirtualClock clock,
      ConverterErrors errors,
      RandomGenerator random) {
    this.analog = analog;
    this.events = events;
    this.clock = clock;
    connectPin = 1 << (8 + board.expander("connect-bit"));
    testLoadPin = 1 << (8 + board.expander("test-load-bit"));
    wettingPin = 1 << (8 + board.expander("wetting-bit"));
    this.calls = calls;
    senseA = board.converterInput("sense-a");
    senseB = board.converterInput("sense-b");
    monitorA = board.converterInput("monitor-a");
    monitorB = board.converterInput("monitor-b");
    wireFixedInputs(board);
    control = new ExpanderChip(board.expander("control"), () -> 0, this::controlPins);
    converter = new ConverterChip(analog, clock, this::input, errors, random);
    chain = new SwitchChain(analog, events, clock, converter::startEdge);
    ExpanderChip flags = new ExpanderChip(board.expander("trip-flags"), this::flags, p -> {});
    ExpanderChip flagM =
        new ExpanderChip(
            board.expander("trip-flag-m"), () -> flagBits() >>> ScanStep.METAL, p -> {});
    ExpanderChip callWord = new ExpanderChip(board.expander("call-word"), this::callWord, p -> {});
    callLoads = new ExpanderChip(board.expander("call-loads"), () -> 0, p -> {});
    eventWettingPin = 1 << board.expander("event-wetting-bit");
    eventTouchPin = 1 << board.expander("event-touch-bit");
    eventWord = new ExpanderChip(board.expander("event-word"), events::word, p -> {});
    eventLatches = new ExpanderChip(board.expander("event-latches"), events::latches, p -> {});
    eventControl = new ExpanderChip(board.expander("event-control"), () -> 0, this::eventPins);
    expanders =
        List.of(control, flags, flagM, callWord, callLoads, eventWord, eventLatches, eventControl);
    devices.put("converter", new FaultyLine(converter, random));
    devices.put("crosspoint", new FaultyLine(chain, random));
    devices.put("expanders", new FaultyLine(new SharedSelect(expanders), random));
  }

  private void wireFixedInputs(BoardDescription board) {
    Arrays.fill(fixedInputs, Tap.COMMON);
    fixedInputs[board.converterInput("sense-m")] = Tap.sense(ScanStep.METAL);
    fixedInputs[board.converterInput("monitor-m")] = Tap.monitor(ScanStep.METAL);
    fixedInputs[board.converterInput("reference-high")] = Tap.REFERENCE_HIGH;
    fixedInputs[board.converterInput("reference-low")] = Tap.REFERENCE_LOW;
    fixedInputs[board.converterInput("transimpedance")] = Tap.TRANSIMPEDANCE;
    fixedInputs[board.converterInput("drive-bus")] = Tap.DRIVE_BUS;
    fixedInputs[board.converterInput("return-bus")] = Tap.RETURN_BUS;
  }

  /** What hangs on a chip select, by its name in the board description. */
  public FaultyLine device(String name) {
    FaultyLine device = devices.get(name);
    if (device == null) {
      throw new IllegalArgumentException("device=" + name);
    }
    return device;
  }

  public ConverterChip converter() {
    return converter;
  }

  /** Level of an input line of the Pi, by its name in the board description. */
  public boolean lineHigh(String name) {
    return switch (name) {
      case "data-ready" -> !converter.dataReadyLow();
      case "interlock-tripped" -> analog.tripped(clock.nanos());
      case "interlock-outside" -> analog.outside(clock.nanos());
      default -> throw new IllegalArgumentException("line=" + name);
    };
  }

  /** The Pi sets an output line, by its name in the board description. */
  public void setLine(String name, boolean high) {
    switch (name) {
      case "heartbeat" -> {
        if (high != heartbeat) {
          heartbeat = high;
          analog.heartbeat(clock.nanos());
        }
      }
      case "rearm" -> {
        boolean rising = high && !rearm;
        rearm = high;
        if (rising) {
          analog.rearm(clock.nanos());
        }
      }
      case "event-capture" -> {
        boolean rising = high && !capture;
        capture = high;
        if (rising) {
          events.capture(clock.nanos());
        }
      }
      default -> throw new IllegalArgumentException("line=" + name);
    }
  }

  private void eventPins(int pins) {
    boolean wetting = (pins & eventWettingPin) != 0;
    analog.wetting(wetting, clock.nanos());
    events.events(wetting, (pins & eventTouchPin) != 0, clock.nanos());
  }

  private void controlPins(int pins) {
    analog.control((pins & connectPin) != 0, (pins & testLoadPin) != 0, clock.nanos());
  }

  private int flagBits() {
    return analog.tripFlags(clock.nanos());
  }

  private int flags() {
    return flagBits() & 0xFFFF;
  }

  private int callWord() {
    return calls.word(wetting(), loads());
  }

  /** Whether the wetting supply is on XW. */
  public boolean wetting() {
    return (control.outputs() & wettingPin) != 0;
  }

  /** All of them as they are when their supply comes on. */
  public void powerOn() {
    expanders.forEach(ExpanderChip::powerOn);
    chain.powerOn();
    converter.reset();
  }

  /** Cuts an expander's supply for a moment, by its name in the board description. */
  public void interruptPower(String expander) {
    switch (expander) {
      case "event-word" -> eventWord.powerOn();
      case "event-latches" -> eventLatches.powerOn();
      case "event-control" -> eventControl.powerOn();
      default -> throw new IllegalArgumentException("expander=" + expander);
    }
  }

  /** Whether the event path's wetting is asked for. */
  public boolean eventWetting() {
    return (eventControl.outputs() & eventWettingPin) != 0;
  }

  /** Dummy loads that are on, bit 0 for X1. */
  public int loads() {
    return callLoads.outputs();
  }

  private Tap input(int input) {
    int pins = control.outputs();
    if (input == senseA) {
      return Tap.sense(pins & 0x0F);
    } else if (input == senseB) {
      return Tap.sense(pins >>> 4 & 0x0F);
    } else if (input == monitorA) {
      return Tap.monitor(pins & 0x0F);
    } else if (input == monitorB) {
      return Tap.monitor(pins >>> 4 & 0x0F);
    }
    return fixedInputs[input];
  }
}
