package bellwire.simbench.kernel;

import bellwire.board.BoardDescription.SpiDevice;
import bellwire.simbench.chip.FaultyLine;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.function.Supplier;

/**
 * One {@code /dev/spidev}: the requests of linux/spi/spidev.h that the agent's provider makes, one
 * transfer a message. In a mode that is not the chip's, bits are taken at the wrong edge: all that
 * comes back is a bit late.
 */
final class SpiNode implements Node {
  /** Mode bits: clock phase and polarity; select level; a bus before the Pi 5's has no phase. */
  private static final int PHASE = 1;

  private static final int KNOWN_MODES = 0x0F;
  private static final int LONGEST = 4096;
  private static final int MAGIC = 'k';
  private static final int DIRECTION_WRITE = 1;

  private final SpiDevice device;
  private final boolean measures;
  private final FaultyLine chip;
  private final Supplier<Mishap> mishap;
  private int mode;
  private int bits = 8;
  private int hertz;

  /**
   * @param measures whether it is the converter
   * @param mishap what the next transfer meets
   */
  SpiNode(SpiDevice device, boolean measures, FaultyLine chip, Supplier<Mishap> mishap) {
    this.device = device;
    this.measures = measures;
    this.chip = chip;
    this.mishap = mishap;
    hertz = device.hertz();
  }

  /** Whether it is the converter. */
  boolean measures() {
    return measures;
  }

  @Override
  public int control(int request, byte[] argument) {
    if ((request >>> 8 & 0xFF) != MAGIC) {
      return Errno.ENOTTY;
    }
    boolean write = request >>> 30 == DIRECTION_WRITE;
    return switch (request & 0xFF) {
      case 0 -> transfer(argument);
      case 1, 5 -> write ? setMode((int) number(argument)) : answer(argument, mode);
      case 2 -> write ? (number(argument) == 0 ? 0 : Errno.EINVAL) : answer(argument, 0);
      case 3 -> write ? setBits((int) number(argument)) : answer(argument, bits);
      case 4 -> write ? setHertz(number(argument)) : answer(argument, hertz);
      default -> Errno.ENOTTY;
    };
  }

  private int transfer(byte[] bytes) {
    if (bytes.length > LONGEST) {
      return Errno.EMSGSIZE;
    }
    return switch (mishap.get()) {
      case NONE -> shift(bytes, bytes.length);
      case SHORT -> {
        int half = shift(bytes, bytes.length / 2);
        Arrays.fill(bytes, half, bytes.length, (byte) 0);
        yield half;
      }
      case INPUT_OUTPUT_ERROR -> Errno.EIO;
      case GONE -> Errno.ENODEV;
    };
  }

  private int shift(byte[] bytes, int length) {
    if (length == 0) {
      return 0;
    }
    byte[] heard = new byte[length];
    chip.frame(bytes, 0, heard, 0, length);
    if ((mode & 3) != device.mode()) {
      int carry = 0;
      for (int i = 0; i < heard.length; i++) {
        int all = heard[i] & 0xFF;
        heard[i] = (byte) (carry << 7 | all >>> 1);
        carry = all & 1;
      }
    }
    System.arraycopy(heard, 0, bytes, 0, length);
    return length;
  }

  private int setMode(int wanted) {
    boolean phaseless = device.bus() != 0;
    if ((wanted & ~KNOWN_MODES) != 0 || phaseless && (wanted & PHASE) != 0) {
      return Errno.EINVAL;
    }
    mode = wanted;
    return 0;
  }

  private int setBits(int wanted) {
    if (wanted != 0 && wanted != 8) {
      return Errno.EINVAL;
    }
    bits = 8;
    return 0;
  }

  private int setHertz(long wanted) {
    if (wanted == 0) {
      return Errno.EINVAL;
    }
    hertz = (int) wanted;
    return 0;
  }

  private static long number(byte[] argument) {
    long number = 0;
    for (int i = argument.length - 1; i >= 0; i--) {
      number = number << 8 | argument[i] & 0xFF;
    }
    return number;
  }

  private static int answer(byte[] argument, int number) {
    if (argument.length == 1) {
      argument[0] = (byte) number;
    } else {
      ByteBuffer.wrap(argument).order(ByteOrder.LITTLE_ENDIAN).putInt(number);
    }
    return 0;
  }
}
