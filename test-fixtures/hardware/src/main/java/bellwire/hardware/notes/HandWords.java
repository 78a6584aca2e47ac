package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import java.util.List;
import java.util.Locale;

/** What is written to the crosspoint and the expanders by hand while a board is brought up. */
final class HandWords {
  private static final int BYTES = 8;
  private static final int PORTS = 17;

  /** MCP23S17 class, from the data sheet as the agent's driver names it: DS20001952, table 3-1. */
  private static final int OPCODE = 0x40;

  private static final int IODIRA = 0x00;
  private static final int IOCON = 0x0A;
  private static final int OLATA = 0x14;
  private static final int HAEN = 0x08;

  private final BoardDescription board;

  HandWords(BoardDescription board) {
    this.board = board;
  }

  /** The chain's bytes in the order in which they are sent. */
  static byte[] chain(List<Integer> bits) {
    byte[] bytes = new byte[BYTES];
    for (int bit : bits) {
      bytes[BYTES - 1 - bit / 8] |= (byte) (1 << bit % 8);
    }
    return bytes;
  }

  /** Two registers of an expander, A and B. */
  static byte[] expander(int address, int register, int a, int b) {
    return new byte[] {(byte) (OPCODE | address << 1), (byte) register, (byte) a, (byte) b};
  }

  private static String printed(byte[] bytes) {
    StringBuilder text = new StringBuilder("`");
    for (byte each : bytes) {
      text.append(String.format(Locale.ROOT, "\\x%02x", each));
    }
    return text.append('`').toString();
  }

  String table() {
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # Words by hand

        From the bit maps of sensing-board-a.yaml. Bytes in the order of their sending, as `printf` writes them.

        | crosspoint | bytes |
        |---|---|
        """);
    row(out, "all open", chain(List.of()));
    row(out, "low check, excitation on", checked("check-low", "range-low"));
    row(out, "high check, excitation on", checked("check-high", "range-high"));
    row(out, "P1 driven, excitation on", driven(List.of(0)));
    row(out, "every port driven, excitation on", driven(ports()));
    row(out, "every port on the guard bus", chain(ports().stream().map(this::guard).toList()));
    out.append("\n| expanders | bytes |\n|---|---|\n");
    int control = board.expander("control");
    int event = board.expander("event-control");
    int loads = board.expander("call-loads");
    row(out, "first of all: listen to addresses", expander(0, IOCON, HAEN, HAEN));
    row(out, "control: all low", expander(control, OLATA, 0, 0));
    row(out, "control: outputs", expander(control, IODIRA, 0, 0));
    row(out, "relays asked for", expander(control, OLATA, 0, 1 << board.expander("connect-bit")));
    row(out, "test load on", expander(control, OLATA, 0, 1 << board.expander("test-load-bit")));
    row(out, "call wetting on", expander(control, OLATA, 0, 1 << board.expander("wetting-bit")));
    row(out, "event path: all low", expander(event, OLATA, 0, 0));
    row(out, "event path: outputs", expander(event, IODIRA, 0, 0));
    int wetting = 1 << board.expander("event-wetting-bit");
    row(out, "event wetting on", expander(event, OLATA, wetting, 0));
    row(out, "dummy loads: all off", expander(loads, OLATA, 0, 0));
    row(out, "dummy loads: outputs", expander(loads, IODIRA, 0, 0));
    row(out, "dummy load of X1 on", expander(loads, OLATA, 1, 0));
    return out.toString();
  }

  private static void row(StringBuilder out, String what, byte[] bytes) {
    out.append("| ").append(what).append(" | ").append(printed(bytes)).append(" |\n");
  }

  private byte[] checked(String check, String range) {
    return chain(List.of(board.chainBit(check), board.chainBit(range), board.chainBit("excite")));
  }

  private byte[] driven(List<Integer> ports) {
    List<Integer> bits = new java.util.ArrayList<>();
    ports.forEach(port -> bits.add(board.chainBit(port, "drive")));
    bits.add(board.chainBit("excite"));
    return chain(bits);
  }

  private static List<Integer> ports() {
    return java.util.stream.IntStream.range(0, PORTS).boxed().toList();
  }

  private int guard(int port) {
    return board.chainBit(port, "guard");
  }
}
