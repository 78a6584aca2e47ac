package bellwire.hardware.notes;

import bellwire.board.BoardDescription;
import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import bellwire.hardware.PiHeader;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What is on each pin of the Pi's header, in the two columns in which the pins stand. */
final class HeaderTable {
  private static final List<String> INPUTS =
      List.of("data-ready", "interlock-tripped", "interlock-outside");
  private static final List<String> OUTPUTS = List.of("heartbeat", "rearm", "event-capture");
  private static final List<String> DEVICES = List.of("converter", "expanders", "crosspoint");

  private HeaderTable() {}

  static String text(Netlist netlist, BoardDescription board) {
    Part header = netlist.part("J101");
    Map<Integer, String> words = words(board);
    StringBuilder out = new StringBuilder();
    out.append(
        """
        # The Pi's header

        Pin 1 is the one at the corner of the Pi's board, odd pins on its inner side. 'to' and 'from' are as the Pi sees it. A line
        without a word stays free. GPIO numbers are the chip's (BCM).

        | pin | GPIO | signal | pin | GPIO | signal |
        |---|---|---|---|---|---|
        """);
    for (int pin = 1; pin < PiHeader.PINS; pin += 2) {
      out.append("|")
          .append(cell(pin, header, words))
          .append(cell(pin + 1, header, words))
          .append('\n');
    }
    return out.toString();
  }

  private static String cell(int pin, Part header, Map<Integer, String> words) {
    String net = header.net("" + pin);
    Integer gpio = PiHeader.gpioAt(pin);
    String word =
        switch (net) {
          case Part.OPEN -> "";
          case "PI_GND" -> "common of the Pi";
          case "PI_5V" -> "5 V";
          case "PI_3V3" -> "3.3 V";
          default -> gpio == null ? net : words.getOrDefault(gpio, net);
        };
    return " " + pin + " | " + (gpio == null ? "" : gpio) + " | " + word + " |";
  }

  /** By GPIO number, from the pin map. */
  private static Map<Integer, String> words(BoardDescription board) {
    Map<Integer, String> words = new LinkedHashMap<>();
    INPUTS.forEach(line -> words.put(board.line(line), "from " + line));
    OUTPUTS.forEach(line -> words.put(board.line(line), "to " + line));
    for (String device : DEVICES) {
      BoardDescription.SpiDevice spi = board.spi(device);
      words.put(PiHeader.clock(spi.bus()), "to SPI" + spi.bus() + " clock");
      words.put(PiHeader.dataOut(spi.bus()), "to SPI" + spi.bus() + " data out");
      words.put(PiHeader.dataIn(spi.bus()), "from SPI" + spi.bus() + " data in");
      words.put(
          PiHeader.chipSelect(spi.bus(), spi.chipSelect()),
          "to " + device + ", SPI" + spi.bus() + " chip select " + spi.chipSelect());
    }
    return words;
  }
}
