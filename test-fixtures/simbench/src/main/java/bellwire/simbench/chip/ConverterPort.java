package bellwire.simbench.chip;

/**
 * The converter's serial port: commands, register access, results with STATUS and CRC. Source:
 * ADS124S0x data sheet SBAS660C, table 24 (commands; SYOCAL's number and effect: from memory),
 * sections on RREG, WREG, RDATA, on the STATUS byte and on the CRC (polynomial x^8+x^2+x+1; that it
 * starts from zero: from memory).
 */
final class ConverterPort {
  private static final int SYS = 0x09;
  private static final int SYOCAL = 0x16;
  private static final int OFCAL = 0x0A;
  private static final int SENDSTAT = 0x01;
  private static final int CRC = 0x02;

  private final ConverterChip chip;
  private final int[] registers;
  private final byte[] result = new byte[5];

  ConverterPort(ConverterChip chip, int[] registers) {
    this.chip = chip;
    this.registers = registers;
  }

  void frame(byte[] in, int inAt, byte[] out, int outAt, int length) {
    for (int k = 0; k < length; k++) {
      out[outAt + k] = 0;
    }
    int i = 0;
    while (i < length) {
      int command = in[inAt + i] & 0xFF;
      i++;
      if ((command & 0xFE) == 0x06) {
        chip.reset();
        return;
      } else if ((command & 0xFE) == 0x12) {
        sendResult(out, outAt + i, length - i);
        return;
      } else if (command == SYOCAL) {
        calibrateOffset();
      } else if ((command & 0xE0) == 0x20 && i < length) {
        int count = (in[inAt + i] & 0x1F) + 1;
        i++;
        for (int k = 0; k < count && i < length; k++, i++) {
          int register = (command & 0x1F) + k;
          out[outAt + i] = (byte) (register < registers.length ? registers[register] : 0);
        }
      } else if ((command & 0xE0) == 0x40 && i < length) {
        int count = (in[inAt + i] & 0x1F) + 1;
        i++;
        for (int k = 0; k < count && i < length; k++, i++) {
          write((command & 0x1F) + k, in[inAt + i] & 0xFF);
        }
      }
      // START and STOP do nothing while the START pin is high; the rest is not used on this board.
    }
  }

  private void write(int register, int value) {
    if (register == 0 || register >= registers.length) {
      return;
    }
    if (register == ConverterChip.STATUS) {
      registers[register] &= 0x7F | value;
    } else {
      registers[register] = value;
    }
    chip.written(register);
  }

  /** The present input becomes zero; how long that takes is not modelled. */
  private void calibrateOffset() {
    int code = chip.result();
    for (int k = 0; k < 3; k++) {
      registers[OFCAL + k] = code >> 8 * k & 0xFF;
    }
  }

  private void sendResult(byte[] out, int outAt, int room) {
    int offset = registers[OFCAL] | registers[OFCAL + 1] << 8 | (byte) registers[OFCAL + 2] << 16;
    int code = chip.result() - offset;
    int length = 0;
    if ((registers[SYS] & SENDSTAT) != 0) {
      result[length++] = (byte) registers[ConverterChip.STATUS];
    }
    result[length++] = (byte) (code >> 16);
    result[length++] = (byte) (code >> 8);
    result[length++] = (byte) code;
    if ((registers[SYS] & CRC) != 0) {
      result[length] = (byte) check(length);
      length++;
    }
    for (int i = 0; i < room; i++) {
      out[outAt + i] = result[i % length];
    }
  }

  /** Polynomial division, bit by bit, most significant first. */
  private int check(int length) {
    int remainder = 0;
    for (int bit = 0; bit < 8 * length + 8; bit++) {
      int next = bit < 8 * length ? result[bit / 8] >> 7 - bit % 8 & 1 : 0;
      remainder = remainder << 1 | next;
      if ((remainder & 0x100) != 0) {
        remainder ^= 0x107;
      }
    }
    return remainder;
  }
}
