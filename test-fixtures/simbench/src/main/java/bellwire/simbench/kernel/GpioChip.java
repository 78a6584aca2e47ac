package bellwire.simbench.kernel;

import bellwire.board.BoardDescription;
import bellwire.simbench.chip.BoardChips;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToIntFunction;

/**
 * The GPIO character device, in the first version of its interface (linux/gpio.h), which the
 * library inside Pi4J speaks: chip, lines, and handles of lines that were requested.
 */
final class GpioChip implements Node {
  private static final int LINES = 58;
  private static final int NAME_BYTES = 32;
  private static final int MOST_IN_HANDLE = 64;
  private static final int USED = 1;
  private static final int IS_OUT = 2;
  private static final int REQUEST_INPUT = 1;
  private static final int REQUEST_OUTPUT = 2;
  private static final List<String> INPUTS =
      List.of("data-ready", "interlock-tripped", "interlock-outside");
  private static final List<String> OUTPUTS = List.of("heartbeat", "rearm", "event-capture");

  private final BoardChips chips;
  private final Map<Integer, String> inputs = new HashMap<>();
  private final Map<Integer, String> outputs = new HashMap<>();
  private final Map<Integer, Boolean> levels = new HashMap<>();
  private final Set<Integer> taken = new HashSet<>();
  private final ToIntFunction<Node> opened;

  /**
   * @param opened gives a node its number
   */
  GpioChip(BoardDescription board, BoardChips chips, ToIntFunction<Node> opened) {
    this.chips = chips;
    this.opened = opened;
    INPUTS.forEach(name -> inputs.put(board.line(name), name));
    OUTPUTS.forEach(name -> outputs.put(board.line(name), name));
  }

  /** As if another program held this line, or let go of it. */
  void take(int line, boolean hold) {
    if (hold) {
      taken.add(line);
    } else {
      taken.remove(line);
    }
  }

  @Override
  public int control(int request, byte[] argument) {
    ByteBuffer at = ByteBuffer.wrap(argument).order(ByteOrder.LITTLE_ENDIAN);
    return switch (request & 0xFFFF) {
      case 0xB401 -> information(at);
      case 0xB402 -> line(at);
      case 0xB403 -> handle(at);
      case 0xB404 -> events(at);
      default -> Errno.ENOTTY;
    };
  }

  private static int information(ByteBuffer at) {
    word(at, 0, "gpiochip0");
    word(at, NAME_BYTES, "pinctrl-bcm2711");
    at.putInt(2 * NAME_BYTES, LINES);
    return 0;
  }

  private int line(ByteBuffer at) {
    int line = at.getInt(0);
    if (line < 0 || line >= LINES) {
      return Errno.EINVAL;
    }
    int flags = taken.contains(line) ? USED : 0;
    at.putInt(4, flags | (levels.containsKey(line) ? IS_OUT : 0));
    word(at, 8, "GPIO" + line);
    word(at, 8 + NAME_BYTES, taken.contains(line) ? "in use" : "");
    return 0;
  }

  /** struct gpiohandle_request: 64 offsets, flags, 64 first values, consumer, count, descriptor. */
  private int handle(ByteBuffer at) {
    int flags = at.getInt(4 * MOST_IN_HANDLE);
    int values = 4 * MOST_IN_HANDLE + 4;
    int count = at.getInt(values + MOST_IN_HANDLE + NAME_BYTES);
    boolean output = (flags & REQUEST_OUTPUT) != 0;
    if (count < 1 || count > MOST_IN_HANDLE || output == ((flags & REQUEST_INPUT) != 0)) {
      return Errno.EINVAL;
    }
    int[] lines = new int[count];
    for (int i = 0; i < count; i++) {
      lines[i] = at.getInt(4 * i);
    }
    int result = request(lines, output);
    for (int i = 0; output && result > 0 && i < count; i++) {
      set(lines[i], at.get(values + i) != 0);
    }
    return result;
  }

  /** struct gpioevent_request: offset first. No event ever comes; its level may be read. */
  private int events(ByteBuffer at) {
    return request(new int[] {at.getInt(0)}, false);
  }

  private int request(int[] lines, boolean output) {
    for (int line : lines) {
      if (line < 0 || line >= LINES) {
        return Errno.EINVAL;
      }
      if (taken.contains(line)) {
        return Errno.EBUSY;
      }
    }
    for (int line : lines) {
      taken.add(line);
    }
    return opened.applyAsInt(new Handle(lines, output));
  }

  private void set(int line, boolean high) {
    levels.put(line, high);
    String name = outputs.get(line);
    if (name != null) {
      chips.setLine(name, high);
    }
  }

  private boolean level(int line) {
    String name = inputs.get(line);
    return name == null ? levels.getOrDefault(line, false) : chips.lineHigh(name);
  }

  private static void word(ByteBuffer at, int offset, String word) {
    byte[] bytes = word.getBytes(StandardCharsets.US_ASCII);
    for (int i = 0; i < NAME_BYTES; i++) {
      at.put(offset + i, i < bytes.length ? bytes[i] : 0);
    }
  }

  /** Lines that were requested. They keep their level when they are let go, as a Pi's do. */
  private final class Handle implements Node {
    private final int[] lines;
    private final boolean output;

    Handle(int[] lines, boolean output) {
      this.lines = lines;
      this.output = output;
    }

    @Override
    public int control(int request, byte[] argument) {
      switch (request & 0xFFFF) {
        case 0xB408 -> {
          for (int i = 0; i < lines.length; i++) {
            argument[i] = (byte) (level(lines[i]) ? 1 : 0);
          }
        }
        case 0xB409 -> {
          if (!output) {
            return Errno.EINVAL;
          }
          for (int i = 0; i < lines.length; i++) {
            set(lines[i], argument[i] != 0);
          }
        }
        default -> {
          return Errno.ENOTTY;
        }
      }
      return 0;
    }

    @Override
    public void close() {
      for (int line : lines) {
        taken.remove(line);
      }
    }
  }
}
