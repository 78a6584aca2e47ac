package bellwire.soak;

import java.util.Locale;

/**
 * Something that goes wrong for a while.
 *
 * @param micros bench time at which it begins
 * @param untilMicros at which it is over
 * @param amount by its kind
 * @param what chip, or terminals; empty for the other kinds
 */
record Mishap(Kind kind, long micros, long untilMicros, double amount, String what) {

  enum Kind {
    /** Bytes arrive changed, each with the chance {@code amount}. */
    BYTE_ERRORS,
    /** Bytes do not arrive, in runs; the chance that one begins. */
    BYTES_DROPPED,
    /** What a read gave comes again; the chance. */
    CHUNKS_DOUBLED,
    /** What two reads gave comes in the other order, as from two buffers; the chance. */
    CHUNKS_SWAPPED,
    /** The cable is out, and what was on its way is lost. */
    LINE_CUT,
    /** The agent's program does not get to run. */
    AGENT_HELD,
    /** The agent's program is killed, and started again at the end. */
    AGENT_KILLED,
    /** Pi and board have no supply. */
    POWER_CUT,
    /** The host's program is killed, and started again at the end. */
    HOST_KILLED,
    /** The disk of the job file has no room. */
    DISK_FULL,
    /** The host's wall clock jumps by {@code amount} seconds. */
    CLOCK_STEP,
    /** A chip's data lines are stuck low, stuck high, unheard: {@code amount} 0, 1, 2. */
    CHIP_STUCK,
    /** Frames to or from a chip have one bit inverted, each with the chance {@code amount}. */
    CHIP_FLIPS,
    /** A source between two terminals, of so many volts: written in the bench. */
    FOREIGN_VOLTAGE,
    /** A plug is put on before it was asked for: written in the bench. */
    PLUG_EARLY
  }

  /** Whether it is of the device: what then goes unread may be missing. */
  boolean ofDevice() {
    return switch (kind) {
      case AGENT_HELD, AGENT_KILLED, POWER_CUT, CHIP_STUCK, CHIP_FLIPS, FOREIGN_VOLTAGE -> true;
      default -> false;
    };
  }

  /** Whether what is on its way may come late. */
  boolean ofLineOrHost() {
    return switch (kind) {
      case BYTE_ERRORS,
          BYTES_DROPPED,
          CHUNKS_DOUBLED,
          CHUNKS_SWAPPED,
          LINE_CUT,
          HOST_KILLED,
          DISK_FULL ->
          true;
      default -> false;
    };
  }

  boolean within(long fromMicros, long toMicros) {
    return micros <= toMicros && untilMicros >= fromMicros;
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "%.6f..%.6f s %s %.4g %s",
        micros * 1e-6,
        untilMicros * 1e-6,
        kind,
        amount,
        what);
  }
}
