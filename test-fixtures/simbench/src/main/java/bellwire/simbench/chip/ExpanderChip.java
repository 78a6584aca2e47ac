package bellwire.simbench.chip;

import java.util.function.IntConsumer;
import java.util.function.IntSupplier;

/**
 * A port expander (MCP23S17 class) at register level, IOCON.BANK = 0. Source: MCP23017/MCP23S17
 * data sheet DS20001952: register table 3-1, reset values, section 1.4.2 for the control byte,
 * 3.2.1 for sequential operation. Interrupts are not modelled: the board does not wire them.
 */
public final class ExpanderChip implements SpiTarget {
  private static final int REGISTERS = 22;
  private static final int IODIR = 0x00;
  private static final int IPOL = 0x02;
  private static final int IOCON = 0x0A;
  private static final int GPIO = 0x12;
  private static final int OLAT = 0x14;
  private static final int HAEN = 0x08;
  private static final int SEQOP = 0x20;

  private final int hardwareAddress;
  private final IntSupplier pins;
  private final IntConsumer driven;
  private final int[] registers = new int[REGISTERS];
  private int lastDriven;

  /**
   * @param hardwareAddress level of the address pins, 0 to 7
   * @param pins levels from outside, bits 0 to 7 port A, 8 to 15 port B
   * @param driven told the levels that the outputs drive, inputs as 0, whenever they change
   */
  public ExpanderChip(int hardwareAddress, IntSupplier pins, IntConsumer driven) {
    this.hardwareAddress = hardwareAddress;
    this.pins = pins;
    this.driven = driven;
    powerOn();
  }

  /** All registers to their reset values: every pin an input. */
  public void powerOn() {
    for (int i = 0; i < REGISTERS; i++) {
      registers[i] = i <= IODIR + 1 ? 0xFF : 0;
    }
    drive();
  }

  /** Levels that the outputs drive, inputs as 0. */
  public int outputs() {
    return lastDriven;
  }

  /** Whether the chip takes part in a frame whose first byte is this. */
  boolean answers(int control) {
    int address = (registers[IOCON] & HAEN) != 0 ? hardwareAddress : 0;
    return (control & 0xFE) == (0x40 | address << 1);
  }

  @Override
  public void frame(
      byte[] fromMaster, int fromMasterAt, byte[] toMaster, int toMasterAt, int length) {
    for (int i = 0; i < length; i++) {
      toMaster[toMasterAt + i] = 0;
    }
    if (length < 3 || !answers(fromMaster[fromMasterAt])) {
      return;
    }
    boolean reading = (fromMaster[fromMasterAt] & 1) != 0;
    int register = fromMaster[fromMasterAt + 1] & 0xFF;
    for (int i = 2; i < length; i++) {
      if (reading) {
        toMaster[toMasterAt + i] = (byte) read(register);
      } else {
        write(register, fromMaster[fromMasterAt + i] & 0xFF);
      }
      register = next(register);
    }
    drive();
  }

  private int next(int register) {
    if ((registers[IOCON] & SEQOP) != 0) {
      return register ^ 1;
    }
    return (register + 1) % REGISTERS;
  }

  private int read(int register) {
    if (register >= REGISTERS) {
      return 0;
    }
    int port = register & 1;
    if ((register & ~1) == GPIO) {
      int outside = pins.getAsInt() >>> (8 * port) & 0xFF;
      int inputs = registers[IODIR + port];
      return (outside ^ registers[IPOL + port]) & inputs | registers[OLAT + port] & ~inputs;
    }
    return registers[register];
  }

  private void write(int register, int value) {
    if (register >= REGISTERS) {
      return;
    }
    switch (register & ~1) {
      case GPIO -> registers[register - GPIO + OLAT] = value;
      case IOCON -> {
        registers[IOCON] = value;
        registers[IOCON + 1] = value;
      }
      case 0x0E, 0x10 -> {} // INTF and INTCAP are read-only
      default -> registers[register] = value;
    }
  }

  private void drive() {
    int a = registers[OLAT] & ~registers[IODIR];
    int b = registers[OLAT + 1] & ~registers[IODIR + 1];
    int now = a & 0xFF | (b & 0xFF) << 8;
    if (now != lastDriven) {
      lastDriven = now;
      driven.accept(now);
    }
  }
}
