package bellwire.agent.board;

import bellwire.board.BoardDescription;
import bellwire.link.Check;
import bellwire.link.Range;
import bellwire.link.ScanStep;
import bellwire.link.Tap;

/** Where a step's ports, ranges and taps are on the board: bit and input numbers. */
final class SwitchMap {
  private final BoardDescription board;
  private final long[] drive = new long[ScanStep.PORTS];
  private final long[] returned = new long[ScanStep.PORTS];
  private final long[] guard = new long[ScanStep.PORTS];

  SwitchMap(BoardDescription board) {
    this.board = board;
    for (int port = 0; port < ScanStep.PORTS; port++) {
      drive[port] = 1L << board.chainBit(port, "drive");
      returned[port] = 1L << board.chainBit(port, "return");
      guard[port] = 1L << board.chainBit(port, "guard");
    }
  }

  /** The crosspoint word of a step. */
  long word(ScanStep step) {
    long word = bits(step.drive(), drive) | bits(step.returned(), returned);
    word |= bits(step.guard(), guard);
    if (step.excite()) {
      word |= 1L << board.chainBit("excite");
    }
    return word | rangeBit(step.range()) | checkBit(step.check());
  }

  /** These ports on the guard bus, the others on none, nothing excited. */
  long guarded(int ports) {
    return bits(ports, guard);
  }

  private static long bits(int ports, long[] column) {
    long word = 0;
    for (int rest = ports; rest != 0; rest &= rest - 1) {
      word |= column[Integer.numberOfTrailingZeros(rest)];
    }
    return word;
  }

  private long rangeBit(Range range) {
    return switch (range) {
      case NONE -> 0;
      case LOW -> 1L << board.chainBit("range-low");
      case MID -> 1L << board.chainBit("range-mid");
      case HIGH -> 1L << board.chainBit("range-high");
    };
  }

  private long checkBit(Check check) {
    return switch (check) {
      case NONE -> 0;
      case LOW -> 1L << board.chainBit("check-low");
      case HIGH -> 1L << board.chainBit("check-high");
    };
  }

  /** Converter input for the positive tap, which goes through multiplexer A where it is a port. */
  int positiveInput(Tap tap) {
    return input(tap, "sense-a", "monitor-a");
  }

  /** Converter input for the negative tap, which goes through multiplexer B where it is a port. */
  int negativeInput(Tap tap) {
    return input(tap, "sense-b", "monitor-b");
  }

  private int input(Tap tap, String sense, String monitor) {
    boolean metal = tap.port() == ScanStep.METAL;
    return board.converterInput(
        switch (tap.kind()) {
          case SENSE -> metal ? "sense-m" : sense;
          case MONITOR -> metal ? "monitor-m" : monitor;
          case REFERENCE_HIGH -> "reference-high";
          case REFERENCE_LOW -> "reference-low";
          case TRANSIMPEDANCE -> "transimpedance";
          case COMMON -> "common";
          case DRIVE_BUS -> "drive-bus";
          case RETURN_BUS -> "return-bus";
        });
  }

  /** Whether the tap is a port that a multiplexer must be pointed at. */
  static boolean multiplexed(Tap tap) {
    return tap.kind().hasPort() && tap.port() != ScanStep.METAL;
  }
}
