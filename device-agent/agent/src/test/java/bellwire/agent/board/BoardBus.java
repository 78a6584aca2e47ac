package bellwire.agent.board;

import bellwire.agent.chip.Converter;
import bellwire.agent.chip.Crosspoint;
import bellwire.agent.chip.Expanders;
import bellwire.agent.chip.InputLine;
import bellwire.agent.chip.OutputLine;
import bellwire.board.BoardDescription;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.spi.Spi;
import java.lang.reflect.Proxy;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * The registers behind a board's three chip selects, by the data sheets of MCP23S17 (DS20001952:
 * BANK = 0, addresses counted up) and ADG714 (rev. E: what was in the chain leaves as new data come
 * in). They begin with rubbish in them, as after a power cut; the converter answers with zeros but
 * for what the test sets.
 */
public final class BoardBus {
  static final int IODIR = 0x00;
  static final int IOCON = 0x0A;
  static final int GPIO = 0x12;
  static final int OLAT = 0x14;
  private static final int HARDWARE_ADDRESSES = 0x08;

  final int[][] registers = new int[8][0x16];
  public final int[] pins = new int[8];
  final List<String> converterHeard = new ArrayList<>();
  public final Map<String, Boolean> outputs = new HashMap<>();
  public final Set<String> high = new TreeSet<>();
  long chain = 0x1234_5678_9ABC_DEF0L;
  byte[] result = new byte[6];
  public boolean crosspointFails;
  public boolean expandersFail;
  public boolean lineFails;

  public BoardBus() {
    for (int address = 0; address < 8; address++) {
      registers[address][IODIR] = address % 2 == 0 ? 0xFF : 0x00;
      registers[address][IODIR + 1] = 0x5A;
      registers[address][OLAT] = 0xFF;
      registers[address][OLAT + 1] = 0xFF;
    }
  }

  public SensingBoard board() {
    return new SensingBoard(
        BoardDescription.revisionA(),
        new Converter(spi(this::converter)),
        new Expanders(spi(this::expanders)),
        new Crosspoint(spi(this::crosspoint)),
        new Lines(
            input("data-ready"),
            input("tripped"),
            input("outside"),
            output("heartbeat"),
            output("rearm"),
            output("capture")));
  }

  public int directions(int address) {
    return pair(address, IODIR);
  }

  public int latches(int address) {
    return pair(address, OLAT);
  }

  private int pair(int address, int register) {
    return registers[address][register] | registers[address][register + 1] << 8;
  }

  /** As at power-on: all pins inputs, settings and latches gone. */
  void losesItsSupply(int address) {
    registers[address] = new int[0x16];
    registers[address][IODIR] = 0xFF;
    registers[address][IODIR + 1] = 0xFF;
  }

  private interface Device {
    int transfer(byte[] out, byte[] in, int length);
  }

  private int expanders(byte[] out, byte[] in, int length) {
    if (expandersFail) {
      return -1;
    }
    boolean read = (out[0] & 1) != 0;
    int addressed = out[0] >> 1 & 7;
    for (int address = 0; address < 8; address++) {
      boolean listens = (registers[address][IOCON] & HARDWARE_ADDRESSES) != 0;
      if (listens ? address != addressed : addressed != 0) {
        continue;
      }
      for (int i = 2; i < length; i++) {
        int register = out[1] + i - 2;
        if (!read) {
          registers[address][register] = out[i] & 0xFF;
        } else if (register >= GPIO && register < OLAT) {
          in[i] = (byte) (pins[address] >>> (8 * (register - GPIO)));
        } else {
          in[i] = (byte) registers[address][register];
        }
      }
    }
    return length;
  }

  private int crosspoint(byte[] out, byte[] in, int length) {
    if (crosspointFails) {
      return -1;
    }
    long next = 0;
    for (int i = 0; i < length; i++) {
      in[i] = (byte) (chain >>> (8 * (length - 1 - i)));
      next = next << 8 | out[i] & 0xFF;
    }
    chain = next;
    return length;
  }

  private int converter(byte[] out, byte[] in, int length) {
    StringBuilder heard = new StringBuilder();
    for (int i = 0; i < length; i++) {
      heard.append(String.format("%02x", out[i]));
    }
    converterHeard.add(heard.toString());
    if (out[0] == 0x12) {
      System.arraycopy(result, 0, in, 0, length);
    } else if ((out[0] & 0xE0) == 0x40) { // what is written comes back by the read behind it
      System.arraycopy(out, 2, in, 2 + out[1] + 1 + 2, out[1] + 1);
      for (int i = 2 * (out[1] + 1) + 4; i < length; i++) {
        in[i] = FIXED[i - 2 * (out[1] + 1) - 4];
      }
    }
    return length;
  }

  /** REF to the last register of the calibration, as the data sheet's reset leaves the rest. */
  private static final byte[] FIXED = {
    0x3A, (byte) 0x80, (byte) 0xFF, 0, 0x13, 0, 0, 0, 0, 0, 0x40
  };

  private static Spi spi(Device device) {
    return proxy(
        Spi.class,
        (method, arguments) -> {
          if (!method.equals("transfer") || arguments.length != 5) {
            throw new AssertionError(method);
          }
          return device.transfer((byte[]) arguments[0], (byte[]) arguments[2], (int) arguments[4]);
        });
  }

  private InputLine input(String name) {
    return new InputLine(
        name,
        proxy(
            DigitalInput.class,
            (method, arguments) ->
                lineFails
                    ? DigitalState.UNKNOWN
                    : high.contains(name) ? DigitalState.HIGH : DigitalState.LOW));
  }

  private OutputLine output(String name) {
    DigitalOutput[] self = new DigitalOutput[1];
    self[0] =
        proxy(
            DigitalOutput.class,
            (method, arguments) -> {
              outputs.put(name, arguments[0] == DigitalState.HIGH);
              return self[0];
            });
    return new OutputLine(name, self[0]);
  }

  private interface Answer {
    Object to(String method, Object[] arguments);
  }

  private static <T> T proxy(Class<T> type, Answer answer) {
    return type.cast(
        Proxy.newProxyInstance(
            type.getClassLoader(),
            new Class<?>[] {type},
            (proxy, method, arguments) -> answer.to(method.getName(), arguments)));
  }
}
