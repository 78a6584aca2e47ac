package bellwire.app.survey;

import bellwire.app.link.Transport;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.circuit.Probe;
import bellwire.simbench.circuit.Solution;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;

/**
 * The simulated bench at the end of the link, with a look at its relays and its excitation every
 * millisecond, and every 20 µs around the moment that matters. It may freeze the agent at a time.
 */
final class WatchedBench implements Transport {
  static final long NEVER = Long.MAX_VALUE;
  private static final long FINE_MICROS = 20;
  private static final long COARSE_MICROS = 1000;
  private static final long CLOSE_MICROS = 4000;

  final SimulatedDevice device;
  private final long fromMicros;
  private final long freezeMicros;
  private final long tellingMicros;

  /** Relays and excitation at the last look before the moment. */
  boolean wasConnected;

  boolean wasExcited;

  /** From the moment until the latch was set, and until relays and excitation were both off. */
  long latchedAfterMicros = NEVER;

  long offAfterMicros = NEVER;

  /** From the moment until the relays were open. */
  long openAfterMicros = NEVER;

  /** Looks at which a relay or the excitation had come back. */
  int cameBack;

  /** Looks at which the latch had been cleared again. */
  int cleared;

  /**
   * @param fromMicros the moment, such as a voltage's start
   * @param freezeMicros when to freeze the agent, or {@link #NEVER}
   */
  WatchedBench(String yaml, long fromMicros, long freezeMicros) throws FileException {
    device = new SimulatedDevice(BenchFile.parse("drawn.yaml", yaml));
    this.fromMicros = fromMicros;
    this.freezeMicros = freezeMicros;
    tellingMicros = fromMicros > NEVER - CLOSE_MICROS ? NEVER : fromMicros + CLOSE_MICROS;
  }

  @Override
  public void await(long micros) {
    long end = device.micros() + micros;
    while (device.micros() < end) {
      long now = device.micros();
      boolean close = now >= fromMicros - COARSE_MICROS && now < tellingMicros;
      long step = Math.min(end - now, close ? FINE_MICROS : COARSE_MICROS);
      if (now < freezeMicros) {
        step = Math.min(step, freezeMicros - now);
      }
      if (now < fromMicros) {
        step = Math.min(step, Math.max(1, fromMicros - 1 - now));
      }
      device.run(step);
      if (device.micros() >= freezeMicros) {
        device.freezeAgent(true);
      }
      look();
    }
  }

  private void look() {
    long micros = device.micros();
    long nanos = micros * 1000;
    boolean connected = device.copper().connected(nanos);
    boolean excited = device.copper().excited(nanos);
    boolean tripped = device.copper().tripped(nanos);
    if (micros < fromMicros) {
      wasConnected = connected;
      wasExcited = excited;
      return;
    }
    long after = micros - fromMicros;
    if (latchedAfterMicros == NEVER) {
      latchedAfterMicros = tripped ? after : NEVER;
    } else if (!tripped) {
      cleared++;
    }
    if (openAfterMicros == NEVER && !connected) {
      openAfterMicros = after;
    }
    if (offAfterMicros == NEVER) {
      offAfterMicros = connected || excited ? NEVER : after;
    } else if (tripped && (connected || excited)) {
      cameBack++;
    }
  }

  /**
   * What a voltmeter would show between two terminals now, root mean square; negative where the
   * first is the negative one of DC.
   */
  double trueVolts(int a, int b) {
    long start = device.micros() * 1000;
    Solution solution = device.copper().solution(start);
    double sum = 0;
    double squares = 0;
    int samples = 1000;
    for (int k = 0; k < samples; k++) {
      // 100 ms: whole cycles of both mains frequencies
      long nanos = start + k * 100_000L;
      double volts = solution.volts(Probe.node(a), nanos) - solution.volts(Probe.node(b), nanos);
      sum += volts;
      squares += volts * volts;
    }
    double rms = Math.sqrt(squares / samples);
    return sum < -0.9 * samples * rms ? -rms : rms;
  }

  @Override
  public int read(byte[] into) {
    return device.read(into);
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    device.write(bytes, off, len);
  }

  @Override
  public long nowMicros() {
    return device.micros();
  }

  @Override
  public String name() {
    return "the watched bench";
  }

  @Override
  public void close() {
    device.close();
  }
}
