package bellwire.simbench.chip;

import bellwire.link.Tap;
import bellwire.simbench.AnalogSide;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.VirtualClock;
import java.util.function.IntFunction;
import java.util.random.RandomGenerator;

/**
 * The converter's conversions and data-ready line (ADS124S08 class); {@link ConverterPort} is its
 * serial port. START/SYNC is tied to the crosspoint's latch line and rests high.
 *
 * <p>From the data sheet SBAS660C: a rising START restarts; in single-shot mode it gives one
 * conversion; the flags of rails are set after each conversion. From memory: the data-ready line
 * rises with the first clock of any access, and a write to registers 02h to 05h restarts a
 * conversion under way.
 */
public final class ConverterChip implements SpiTarget {
  static final int STATUS = 0x01;
  private static final int INPMUX = 0x02;
  private static final int PGA = 0x03;
  private static final int DATARATE = 0x04;
  private static final int REF = 0x05;
  private static final int IDACMAG = 0x06;
  private static final int POWER_ON = 0x80;
  private static final int RAILS = 0x3C;
  private static final int P_RAIL_P = 0x20;
  private static final int P_RAIL_N = 0x10;
  private static final int N_RAIL_P = 0x08;
  private static final int N_RAIL_N = 0x04;
  private static final int CODE_MAX = 0x7F_FFFF;
  private static final int CODE_MIN = -0x80_0000;
  private static final double CODES_PER_REFERENCE = 1 << 23;
  private static final int[] DELAYS = {14, 25, 64, 256, 1024, 2048, 4096, 1};

  /** 4096 clock periods at 4.096 MHz without an ear for commands. */
  private static final long RESET_NANOS = 1_000_000;

  private final AnalogSide analog;
  private final VirtualClock clock;
  private final IntFunction<Tap> inputs;
  private final ConverterErrors errors;
  private final RandomGenerator random;
  private final ConverterPort port;
  private final int[] registers = new int[18];

  private long deafUntilNanos;
  private boolean converting;
  private long nextEndNanos;
  private long lastEndNanos;
  private boolean unread;
  private boolean uncomputed;
  private Tap plus = Tap.COMMON;
  private Tap minus = Tap.COMMON;
  private int code;

  /**
   * @param inputs what each converter input is joined to at this moment, 0 to 12
   */
  public ConverterChip(
      AnalogSide analog,
      VirtualClock clock,
      IntFunction<Tap> inputs,
      ConverterErrors errors,
      RandomGenerator random) {
    this.analog = analog;
    this.clock = clock;
    this.inputs = inputs;
    this.errors = errors;
    this.random = random;
    port = new ConverterPort(this, registers);
    resetRegisters();
    start();
  }

  /** Makes the chip answer as another one of its family: a wrong part was fitted. */
  public void identity(int id) {
    registers[0] = id;
  }

  /** The supply dipped: every register is as at power-on, and conversions restart. */
  public void reset() {
    resetRegisters();
    deafUntilNanos = clock.nanos() + RESET_NANOS;
    start();
  }

  private void resetRegisters() {
    int id = registers[0];
    int[] initial = {id, POWER_ON, 0x01, 0, 0x14, 0x10, 0, 0xFF, 0, 0x10, 0, 0, 0, 0, 0, 0x40};
    for (int i = 0; i < registers.length; i++) {
      registers[i] = i < initial.length ? initial[i] : 0;
    }
    code = 0;
  }

  /** The START pin rose. */
  public void startEdge() {
    start();
  }

  /** The data-ready pin: low while a result waits. */
  public boolean dataReadyLow() {
    advance();
    return unread;
  }

  @Override
  public void frame(
      byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length) {
    if (clock.nanos() < deafUntilNanos) {
      for (int i = 0; i < length; i++) {
        toMaster[toMasterAt + i] = 0;
      }
      return;
    }
    advance();
    unread = false;
    port.frame(fromMaster, fromMasterAt, toMaster, toMasterAt, length);
  }

  /** A register was written. */
  void written(int register) {
    if (register >= INPMUX && register <= REF && converting) {
      start();
    }
  }

  /** The data register, as the serial port is about to send it. */
  int result() {
    advance();
    unread = false;
    if (uncomputed) {
      uncomputed = false;
      convert();
    }
    return code;
  }

  private void start() {
    converting = true;
    unread = false;
    uncomputed = false;
    plus = inputs.apply(registers[INPMUX] >>> 4);
    minus = inputs.apply(registers[INPMUX] & 0x0F);
    long delay = LowLatencyFilter.nanos(DELAYS[registers[PGA] >>> 5]);
    nextEndNanos = clock.nanos() + delay + LowLatencyFilter.firstNanos(rateCode());
  }

  private void advance() {
    long now = clock.nanos();
    if (!converting || now < nextEndNanos) {
      return;
    }
    unread = true;
    uncomputed = true;
    if ((registers[DATARATE] & 0x20) != 0) {
      lastEndNanos = nextEndNanos;
      converting = false;
    } else {
      long period = LowLatencyFilter.periodNanos(rateCode());
      lastEndNanos = nextEndNanos + (now - nextEndNanos) / period * period;
      nextEndNanos = lastEndNanos + period;
    }
  }

  private int rateCode() {
    int datarate = registers[DATARATE];
    int rate = datarate & 0x0F;
    if ((datarate & 0xD0) != 0x10 || rate >= LowLatencyFilter.CODES) {
      throw new UnsupportedOperationException(
          "converter setting beyond the model: datarate=" + datarate);
    }
    return rate;
  }

  private void convert() {
    FilterKernel filter = LowLatencyFilter.kernel(rateCode());
    int gainCode = (registers[PGA] & 0x18) == 0 ? 0 : registers[PGA] & 0x07;
    int gain = 1 << gainCode;
    AnalogSide.Seen seen = analog.convert(plus, minus, filter, lastEndNanos - filter.lengthNanos());
    double noise = errors.noiseVolts(gain, LowLatencyFilter.perSecond(rateCode()));
    double volts = seen.volts() * (1 + errors.gainError()[gainCode]);
    volts += errors.offsetVolts()[gainCode];
    if (noise > 0) {
      volts += noise * random.nextGaussian();
    }
    boolean referenceOn = (registers[REF] & 0x0C) == 0x08 && (registers[REF] & 0x03) != 0;
    double exact = volts * gain / errors.referenceVolts() * CODES_PER_REFERENCE;
    code = referenceOn ? (int) Math.max(CODE_MIN, Math.min(CODE_MAX, Math.rint(exact))) : CODE_MAX;
    flagRails(seen, gain);
  }

  /**
   * The amplifier's outputs run out of room where the signal, hum included, exceeds the scale; and
   * a transimpedance stage at its lower limit is as near the rail as the flag's threshold.
   */
  private void flagRails(AnalogSide.Seen seen, int gain) {
    int rails = 0;
    if (seen.peakVolts() * gain > errors.referenceVolts()) {
      rails |= seen.volts() >= 0 ? P_RAIL_P | N_RAIL_N : P_RAIL_N | N_RAIL_P;
    }
    if (seen.stageOverloaded()) {
      rails |= plus.equals(Tap.TRANSIMPEDANCE) ? P_RAIL_N : 0;
      rails |= minus.equals(Tap.TRANSIMPEDANCE) ? N_RAIL_N : 0;
    }
    boolean enabled = (registers[IDACMAG] & 0x80) != 0;
    registers[STATUS] = registers[STATUS] & ~RAILS | (enabled ? rails : 0);
  }
}
