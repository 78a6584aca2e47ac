package bellwire.agent.chip;

import com.pi4j.io.spi.Spi;

/**
 * Port expanders (MCP23S17 class) that share one chip select and are told apart by hardware
 * address.
 *
 * <p>Sources: MCP23017/MCP23S17 data sheet (DS20001952), table 3-1 and sections 1.4.2, 3.2.1 and
 * 3.5.6, register addresses with IOCON.BANK = 0; that HAEN is off after power-on, so that the first
 * write reaches all chips on the chip select, from the same.
 *
 * <p>Transfers have no check of their own. What is written is read back; a write that did not
 * arrive may have gone to another chip, so all outputs are then put right. Lines that disturb one
 * transfer after the other are trouble.
 */
public final class Expanders {
  private static final int OPCODE = 0x40;
  private static final int READ = 0x01;
  private static final int IODIRA = 0x00;
  private static final int IPOLA = 0x02;
  private static final int IOCON = 0x0A;
  private static final int GPIOA = 0x12;
  private static final int OLATA = 0x14;
  private static final int IOCON_HAEN = 0x08;
  private static final int ATTEMPTS = 3;
  private static final int CHIPS = 8;

  /** Bits of both kinds, in a latch that drives no pin: lines that are stuck do not read so. */
  private static final int SIGNATURE = 0xC35A;

  /** In a row, of a word that no other transfer tells right from wrong. */
  private static final int ALIKE = 3;

  /** So many reads until they are; leads that carry AC change at any time. */
  private static final int MOST_READS = 16;

  private static final int MOST_PASSES = 8;

  /** Of the transfers whose answer is known, the last two hundred or so: more are a bad line. */
  private static final double MOST_DISTURBED = 4;

  private static final double FORGOTTEN = 0.005;

  private final int[] told = new int[CHIPS];
  private int outputs;
  private double disturbed;

  private final SpiWire wire;
  private final byte[] out = new byte[6];
  private final byte[] in = new byte[6];

  public Expanders(Spi spi) {
    wire = new SpiWire("expanders", spi);
  }

  /** Makes every chip on the chip select listen to its own address only. */
  public void enableAddresses() throws ChipTrouble {
    outputs = 0;
    disturbed = 0;
    write(0, IOCON, IOCON_HAEN, IOCON_HAEN);
  }

  /** Makes all sixteen pins of a chip outputs, low from the first moment. */
  public void makeOutputs(int address) throws ChipTrouble {
    writeChecked(address, IOCON, IOCON_HAEN, IOCON_HAEN);
    writeChecked(address, OLATA, 0, 0);
    writeChecked(address, IODIRA, 0, 0);
    told[address] = 0;
    outputs |= 1 << address;
  }

  public void makeInputs(int address) throws ChipTrouble {
    writeChecked(address, IOCON, IOCON_HAEN, IOCON_HAEN);
    writeChecked(address, IODIRA, 0xFF, 0xFF);
    writeChecked(address, IPOLA, 0, 0);
    writeChecked(address, OLATA, signature(address) & 0xFF, signature(address) >>> 8);
  }

  private static int signature(int address) {
    return SIGNATURE ^ address;
  }

  /**
   * Sets a chip's outputs and reads the latch back. Bits 0 to 7 are port A, 8 to 15 port B. Where a
   * line that is stuck reads like what was written, the chip has to show that it listens, too: what
   * is to be switched off must not count as off unheard.
   */
  public void set(int address, int pins) throws ChipTrouble {
    told[address] = pins; // first: whatever becomes of the write, this is what is wanted
    writeChecked(address, OLATA, pins & 0xFF, pins >>> 8 & 0xFF);
    if (pins == 0 || pins == 0xFFFF) {
      verify(address, IOCON, IOCON_HAEN | IOCON_HAEN << 8);
    }
  }

  /**
   * Pin states of a chip of inputs, bits 0 to 7 port A, 8 to 15 port B. Its signature comes with
   * them.
   */
  public int get(int address) throws ChipTrouble {
    int signature = signature(address);
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      // GPIO and OLAT, which follow on one another; as a write it would write the signature twice.
      out[0] = (byte) (OPCODE | address << 1 | READ);
      out[1] = (byte) GPIOA;
      out[2] = (byte) signature;
      out[3] = (byte) (signature >>> 8);
      out[4] = out[2];
      out[5] = out[3];
      wire.exchange(out, in, 6);
      if (known(address, (in[4] & 0xFF | (in[5] & 0xFF) << 8) == signature)) {
        return in[2] & 0xFF | (in[3] & 0xFF) << 8;
      }
    }
    throw trouble(address, "does not answer: its inputs come without its signature");
  }

  /** Pin states that were read alike several times in a row. */
  public int steady(int address) throws ChipTrouble {
    int seen = get(address);
    int alike = 1;
    for (int i = 1; alike < ALIKE; i++) {
      if (i == MOST_READS) {
        throw trouble(address, "reads differently each time");
      }
      int again = get(address);
      alike = again == seen ? alike + 1 : 1;
      seen = again;
    }
    return seen;
  }

  /**
   * Proves that a chip still listens to its address and drives its pins as told: a chip that lost
   * power has all pins as inputs again. Directions alone prove nothing, for silence reads as zeros.
   */
  public void verifyOutputs(int address) throws ChipTrouble {
    verify(address, IOCON, IOCON_HAEN | IOCON_HAEN << 8);
    verify(address, IODIRA, 0);
  }

  /** Proves that a chip's outputs are as they were set last. */
  public void verifyPins(int address, int pins) throws ChipTrouble {
    verify(address, OLATA, pins);
  }

  /** Proves that a chip of inputs still listens to its address. */
  public void verifyInputs(int address) throws ChipTrouble {
    verify(address, IODIRA, 0xFFFF);
    verify(address, IPOLA, 0);
  }

  private void verify(int address, int register, int wanted) throws ChipTrouble {
    int seen = 0;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      seen = read(address, register, wanted);
      if (known(address, seen == wanted)) {
        return; // one disturbed transfer in hours is no trouble
      }
    }
    throw trouble(
        address,
        "lost its settings: register="
            + register
            + " expected="
            + hex(wanted)
            + " read="
            + hex(seen));
  }

  private void writeChecked(int address, int register, int a, int b) throws ChipTrouble {
    int wanted = a | b << 8;
    int seen = 0;
    boolean astray = false;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      write(address, register, a, b);
      seen = read(address, register, wanted);
      if (known(address, seen == wanted)) {
        if (astray) {
          settleOutputs();
        }
        return;
      }
      astray = true;
    }
    settleOutputs();
    throw trouble(
        address,
        "does not hold what is written to it: register="
            + register
            + " wrote="
            + hex(wanted)
            + " read="
            + hex(seen));
  }

  /** Until all outputs are found as told in one pass; a write of this may itself go astray. */
  private void settleOutputs() throws ChipTrouble {
    boolean found = false;
    int last = 0;
    for (int pass = 0; pass < MOST_PASSES && !found; pass++) {
      found = true;
      for (int left = outputs; left != 0; left &= left - 1) {
        int address = Integer.numberOfTrailingZeros(left);
        if (!known(address, read(address, OLATA, told[address]) == told[address])) {
          write(address, OLATA, told[address] & 0xFF, told[address] >>> 8);
          found = false;
          last = address;
        }
      }
    }
    if (!found) {
      throw trouble(last, "does not hold what is written to it: register=" + OLATA);
    }
  }

  /** Counts a transfer whose answer was known beforehand. */
  private boolean known(int address, boolean right) throws ChipTrouble {
    disturbed += (right ? 0 : 1) - FORGOTTEN * disturbed;
    if (right && disturbed > MOST_DISTURBED) { // where all are wrong something else is
      disturbed = 0;
      throw trouble(address, "is heard badly: its line disturbs one transfer after the other");
    }
    return right;
  }

  private void write(int address, int register, int a, int b) throws ChipTrouble {
    out[0] = (byte) (OPCODE | address << 1);
    out[1] = (byte) register;
    out[2] = (byte) a;
    out[3] = (byte) b;
    wire.exchange(out, in, 4);
  }

  /**
   * @param wanted what the registers should hold: should the control byte arrive as that of a
   *     write, it writes just this
   */
  private int read(int address, int register, int wanted) throws ChipTrouble {
    out[0] = (byte) (OPCODE | address << 1 | READ);
    out[1] = (byte) register;
    out[2] = (byte) wanted;
    out[3] = (byte) (wanted >>> 8);
    wire.exchange(out, in, 4);
    return in[2] & 0xFF | (in[3] & 0xFF) << 8;
  }

  private static ChipTrouble trouble(int address, String reason) {
    return new ChipTrouble("expander " + address, "expander " + address + " " + reason);
  }

  private static String hex(int value) {
    return "0x" + Integer.toHexString(value);
  }
}
