package bellwire.agent.board;

import bellwire.agent.chip.ChipTrouble;
import bellwire.agent.chip.Conversion;
import bellwire.agent.chip.ConversionTimes;
import bellwire.agent.chip.Converter;
import bellwire.agent.chip.Crosspoint;
import bellwire.agent.chip.Expanders;
import bellwire.board.BoardDescription;
import bellwire.link.Message.Samples;
import bellwire.link.ScanStep;
import java.util.List;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * The sensing board in its own concepts: switch states, conversions, interlock, relays. It does as
 * it is told, at once; whether it may is the agent's to know. Times are microseconds of the agent's
 * clock.
 */
public final class SensingBoard {
  private static final int ALL_PORTS = (1 << ScanStep.PORTS) - 1;

  private final SwitchMap map;
  private final Converter converter;
  private final Expanders expanders;
  private final Crosspoint crosspoint;
  private final Lines lines;
  private final EventInputs events;
  private final ConversionWatch watch = new ConversionWatch();

  private final int controlAddress;
  private final int flagsAddress;
  private final int flagMAddress;
  private final int connectPin;
  private final int testLoadPin;
  private final int wettingPin;
  private final int callWordAddress;
  private final int callLoadsAddress;

  private final List<Deed> letGo;

  private int control;
  private int loads;
  private long word;
  private int setup;

  public SensingBoard(
      BoardDescription board,
      Converter converter,
      Expanders expanders,
      Crosspoint crosspoint,
      Lines lines) {
    map = new SwitchMap(board);
    this.converter = converter;
    this.expanders = expanders;
    this.crosspoint = crosspoint;
    this.lines = lines;
    events = new EventInputs(board, expanders, lines.eventCapture());
    controlAddress = board.expander("control");
    flagsAddress = board.expander("trip-flags");
    flagMAddress = board.expander("trip-flag-m");
    connectPin = 1 << (8 + board.expander("connect-bit"));
    testLoadPin = 1 << (8 + board.expander("test-load-bit"));
    wettingPin = 1 << (8 + board.expander("wetting-bit"));
    callWordAddress = board.expander("call-word");
    callLoadsAddress = board.expander("call-loads");
    letGo =
        List.of(
            events::rest,
            () -> latch(0),
            () -> control(control & ~(connectPin | testLoadPin | wettingPin)),
            () -> loads(0));
  }

  /**
   * Opens everything and resets the converter. {@link #finishReset} follows, no sooner than {@link
   * Converter#RESET_MICROS} later.
   */
  public void beginReset() throws ChipTrouble {
    lines.rearm().set(false);
    crosspoint.forget();
    latch(0);
    expanders.enableAddresses();
    expanders.makeOutputs(controlAddress);
    control = 0;
    expanders.makeInputs(flagsAddress);
    expanders.makeInputs(flagMAddress);
    expanders.makeInputs(callWordAddress);
    expanders.makeOutputs(callLoadsAddress);
    loads = 0;
    events.beginReset();
    converter.reset();
  }

  public void finishReset() throws ChipTrouble {
    converter.configure();
  }

  /** Whether the interlock's latch is set: relays and excitation are off. */
  public boolean interlockTripped() throws ChipTrouble {
    return lines.interlockTripped().isHigh();
  }

  /** Whether a port is outside the window at this moment. */
  public boolean interlockOutside() throws ChipTrouble {
    return lines.interlockOutside().isHigh();
  }

  /** Ports outside the window since the last re-arm, bit 0 = P1, bit 16 = M. */
  public int interlockFlags() throws ChipTrouble {
    return expanders.get(flagsAddress) | (expanders.get(flagMAddress) & 1) << ScanStep.METAL;
  }

  /** One edge of the heartbeat, only to be written in a step that has read the interlock clear. */
  public void heartbeat() throws ChipTrouble {
    lines.heartbeat().toggle();
  }

  /** The re-arm line; its rising edge clears the latch if every port is inside the window. */
  public void rearm(boolean high) throws ChipTrouble {
    lines.rearm().set(high);
  }

  /**
   * A one for each lead above its threshold at this moment, bit 0 for X1. Some transfers: a single
   * disturbed one must not pass for a call.
   */
  public int callWord() throws ChipTrouble {
    return expanders.steady(callWordAddress);
  }

  /**
   * Proves that the chip behind {@link #callWord} still listens to its address: one that lost power
   * gives zeros, which must not pass for leads at rest.
   */
  public void verifyCallWord() throws ChipTrouble {
    expanders.verifyInputs(callWordAddress);
  }

  /**
   * Switches the wetting supply and the dummy loads.
   *
   * @param mask leads whose load is on, bit 0 for X1
   */
  public void feedCalls(boolean wetting, int mask) throws ChipTrouble {
    expanders.verifyOutputs(controlAddress);
    expanders.verifyOutputs(callLoadsAddress);
    loads(mask);
    control(wetting ? control | wettingPin : control & ~wettingPin);
  }

  /** Feeds the connect relays; they close once the heartbeat is seen too. */
  public void connect() throws ChipTrouble {
    expanders.verifyOutputs(controlAddress);
    control(control & ~testLoadPin | connectPin);
  }

  /** Proves that the chip that feeds the relays still listens and has its pins as told. */
  public void verifyControl() throws ChipTrouble {
    expanders.verifyOutputs(controlAddress);
    expanders.verifyPins(controlAddress, control);
  }

  public void disconnect() throws ChipTrouble {
    control(control & ~connectPin);
  }

  public boolean connectAsked() {
    return (control & connectPin) != 0;
  }

  /** Whether no port could be driven or joined, as far as this board was told. */
  public boolean atRest() {
    return word == 0 && (control & (connectPin | testLoadPin)) == 0 && !events.wetting();
  }

  public EventInputs events() {
    return events;
  }

  /** Opens every switch of the crosspoint. */
  public void open() throws ChipTrouble {
    latch(0);
  }

  /** Holds these ports at common and lets the others go, excitation off. */
  public void guard(int ports) throws ChipTrouble {
    latch(map.guarded(ports));
  }

  /**
   * Holds every port at common, excitation and event wetting off. Conductors that float when the
   * relays open take their neighbours along as they discharge, beyond the interlock's window.
   */
  public void discharge() throws ChipTrouble {
    events.rest();
    guard(ALL_PORTS);
  }

  /** One of several things to do, each whatever becomes of the others. */
  private interface Deed {
    void done() throws ChipTrouble;
  }

  /**
   * Opens every switch, relay and load, those too that were never told to close: on a disturbed
   * line they may be. All are tried even where one fails.
   *
   * @throws ChipTrouble the first failure
   */
  public void safe() throws ChipTrouble {
    ChipTrouble first = null;
    for (Deed each : letGo) {
      try {
        each.done();
      } catch (ChipTrouble e) {
        first = first == null ? e : first;
      }
    }
    if (first != null) {
      throw first;
    }
  }

  /**
   * Puts the board in a step's switch state; the latch edge at the end starts the step's
   * conversions.
   *
   * @param clock the agent's, in microseconds; asked once that edge is through
   */
  public void begin(ScanStep step, LongSupplier clock) throws ChipTrouble {
    point(step);
    int positive = map.positiveInput(step.plus());
    int negative = map.negativeInput(step.minus());
    int delay = ConversionTimes.delayCode(step.settleMicros());
    boolean continuous = step.repeats() > 1;
    converter.setUp(positive, negative, step.gain(), step.rate(), delay, continuous);
    setup =
        positive << 24
            | negative << 16
            | Integer.numberOfTrailingZeros(step.gain()) << 8
            | step.rate().ordinal();
    latch(map.word(step));
    watch.start(clock.getAsLong(), delay, step.rate(), continuous);
  }

  /**
   * The next conversion of the step begun last, or null where it has not ended.
   *
   * @param clock the agent's, in microseconds, asked on both sides of the look at the line: what
   *     holds the program up in between must not pass for a silent converter
   */
  public @Nullable Reading poll(LongSupplier clock) throws ChipTrouble {
    long beforeMicros = clock.getAsLong();
    if (lines.dataReady().isHigh()) {
      watch.notReady(beforeMicros);
      if (watch.overdue(beforeMicros)) {
        throw new ChipTrouble("converter", "the converter's data-ready line stays silent");
      }
      return null;
    }
    long endNanos = watch.ready(clock.getAsLong());
    Conversion conversion = converter.read();
    watch.fetched(clock.getAsLong());
    int flags = conversion.overloaded() ? Samples.OVERLOAD : 0;
    if (watch.missed() > 0) {
      flags |= Samples.MISSED;
    }
    return new Reading(conversion.code(), (endNanos + 500) / 1000, word, setup, flags);
  }

  /** Proves that the last step's conversions were made with its settings. */
  public void verifyConverter() throws ChipTrouble {
    converter.verify();
  }

  private void point(ScanStep step) throws ChipTrouble {
    int pins = control & ~testLoadPin;
    if (step.testLoad()) {
      pins |= testLoadPin;
    }
    if (SwitchMap.multiplexed(step.plus())) {
      pins = pins & ~0x0F | step.plus().port();
    }
    if (SwitchMap.multiplexed(step.minus())) {
      pins = pins & ~0xF0 | step.minus().port() << 4;
    }
    if (pins != control) {
      control(pins);
    }
  }

  private void control(int pins) throws ChipTrouble {
    // Noted first: after a failed write the pins may be as asked or as before, and a write of the
    // safe state must never be taken for done.
    control = pins;
    expanders.set(controlAddress, pins);
  }

  private void loads(int mask) throws ChipTrouble {
    loads |= mask; // noted first, as in control; and never as off before they are
    expanders.set(callLoadsAddress, mask);
    loads = mask;
  }

  private void latch(long word) throws ChipTrouble {
    this.word = word;
    crosspoint.latch(word);
  }
}
