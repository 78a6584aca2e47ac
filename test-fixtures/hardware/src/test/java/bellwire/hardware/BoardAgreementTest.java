package bellwire.hardware;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The netlist against {@code sensing-board-a.yaml}, from which agent, simulated bench and analysis
 * take pins and bits: what a number there says is what a wire here does.
 */
class BoardAgreementTest {
  private static final String[] BUSES = {"drive", "return", "guard"};

  private static final Map<Integer, Integer> POSITIONS = PiHeader.positions();

  private final Netlist netlist = Netlist.revisionA();
  private final BoardDescription board = BoardDescription.revisionA();
  private final Part header = netlist.part("J101");

  @ParameterizedTest
  @CsvSource({
    "data-ready, U805, DRDY",
    "interlock-tripped, U616, 1Y",
    "interlock-outside, U617, 1Y",
    "heartbeat, U701, A",
    "event-capture, U1041, CLK"
  })
  void aLineOfThePiGoesWhereItsNameSays(String line, String ref, String pin) {
    assertThat(netlist.part(ref).net(pin)).isEqualTo(behindTheBarrier(board.line(line)));
  }

  @Test
  void theRearmLineGoesToTheLatchThroughItsEdge() {
    assertThat(netlist.part("C613").net("1")).isEqualTo(behindTheBarrier(board.line("rearm")));
    assertThat(netlist.part("C613").net("2")).isEqualTo(netlist.part("U616").net("3A"));
  }

  @ParameterizedTest
  @CsvSource({
    "converter, U805, SCLK, DIN, CS",
    "expanders, U900, SCK, SI, CS",
    "expanders, U907, SCK, SI, CS",
    "crosspoint, U501, SCLK, DIN, SYNC"
  })
  void aChipIsOnItsBusAndChipSelect(
      String device, String ref, String clock, String data, String select) {
    BoardDescription.SpiDevice spi = board.spi(device);
    Part chip = netlist.part(ref);
    assertThat(chip.net(clock)).isEqualTo(behindTheBarrier(PiHeader.clock(spi.bus())));
    assertThat(chip.net(data)).isEqualTo(behindTheBarrier(PiHeader.dataOut(spi.bus())));
    assertThat(chip.net(select))
        .isEqualTo(behindTheBarrier(PiHeader.chipSelect(spi.bus(), spi.chipSelect())));
  }

  @Test
  void theHeaderHasNothingElseOnItsLines() {
    List<String> lines =
        List.of(
            "data-ready",
            "interlock-tripped",
            "interlock-outside",
            "heartbeat",
            "rearm",
            "event-capture");
    List<Integer> used =
        java.util.stream.Stream.concat(
                lines.stream().map(board::line),
                java.util.stream.Stream.of(11, 10, 9, 8, 7, 21, 20, 19, 16))
            .toList();
    POSITIONS.forEach(
        (gpio, position) ->
            assertThat(header.net("" + position).equals(Part.OPEN))
                .as("GPIO " + gpio)
                .isEqualTo(!used.contains(gpio)));
    for (int position : new int[] {6, 9, 14, 20, 25, 30, 34, 39}) {
      assertThat(header.net("" + position)).isEqualTo("PI_GND");
    }
  }

  @Test
  void aBitOfTheChainIsTheSwitchThatItsNumberSays() {
    List<String> ports = ports();
    for (int port = 0; port < ports.size(); port++) {
      for (String bus : BUSES) {
        assertJoined(
            board.chainBit(port, bus),
            "INNER_" + ports.get(port),
            bus.toUpperCase(java.util.Locale.ROOT));
      }
    }
    assertJoined(board.chainBit("range-low"), "RETURN", "LREF_H");
    assertJoined(board.chainBit("range-mid"), "TI_MID", "TI_OUT");
    assertJoined(board.chainBit("range-high"), "TI_HIGH", "TI_OUT");
    assertJoined(board.chainBit("check-low"), "CHK_L", "RETURN");
    assertJoined(board.chainBit("check-high"), "CHK_H", "RETURN");
    assertJoined(board.chainBit("excite"), "EXCITE", "VP");
  }

  /** Bits 63 to 56, shifted first, end in chip 7, the last; the chain's end goes back to the Pi. */
  @Test
  void theChainRunsFromChip0ToChip7() {
    int chips = board.chainBit("chips");
    assertThat(netlist.parts().stream().filter(p -> p.line().name().equals("octal-switch")))
        .hasSize(chips);
    for (int chip = 1; chip < chips; chip++) {
      assertThat(netlist.part("U50" + (chip + 1)).net("DIN"))
          .isEqualTo(netlist.part("U50" + chip).net("DOUT"));
    }
    assertThat(netlist.part("U50" + chips).net("DOUT"))
        .isEqualTo(behindTheBarrier(PiHeader.dataIn(1)));
  }

  @Test
  void whatAnswersOnTheFirstBusIsOnItsInput() {
    assertThat(netlist.part("U805").net("DOUT")).isEqualTo(behindTheBarrier(PiHeader.dataIn(0)));
    for (int address = 0; address < 8; address++) {
      assertThat(netlist.part("U90" + address).net("SO"))
          .isEqualTo(behindTheBarrier(PiHeader.dataIn(0)));
    }
  }

  @Test
  void anExpandersAddressPinsSayItsNumber() {
    for (int address = 0; address < 8; address++) {
      Part chip = netlist.part("U90" + address);
      for (int bit = 0; bit < 3; bit++) {
        assertThat(chip.net("A" + bit)).isEqualTo((address >> bit & 1) == 1 ? "VP" : "VN");
      }
      assertThat(chip.line().name()).isEqualTo("expander");
    }
  }

  @Test
  void theControlBitsSwitchWhatTheyName() {
    Part control = netlist.part("U90" + board.expander("control"));
    assertThat(control.net("GPB" + board.expander("connect-bit"))).isEqualTo("CONNECT");
    assertThat(control.net("GPB" + board.expander("test-load-bit"))).isEqualTo("TEST_LOAD");
    assertThat(control.net("GPB" + board.expander("wetting-bit"))).isEqualTo("CALL_WETTING");
    Part event = netlist.part("U90" + board.expander("event-control"));
    assertThat(event.net("GPA" + board.expander("event-wetting-bit"))).isEqualTo("EV_WETTING");
    assertThat(event.net("GPA" + board.expander("event-touch-bit"))).isEqualTo("EV_TOUCH");
    for (int bit = 0; bit < 4; bit++) {
      assertThat(netlist.part("U801").net("A" + bit)).isEqualTo(control.net("GPA" + bit));
      assertThat(netlist.part("U802").net("A" + bit)).isEqualTo(control.net("GPA" + bit));
      assertThat(netlist.part("U803").net("A" + bit)).isEqualTo(control.net("GPA" + (bit + 4)));
      assertThat(netlist.part("U804").net("A" + bit)).isEqualTo(control.net("GPA" + (bit + 4)));
    }
  }

  @ParameterizedTest
  @CsvSource({
    "trip-flags, FLAG_P",
    "call-word, CALL_X",
    "call-loads, LOAD_X",
    "event-word, EVW_P",
    "event-latches, EVL_P"
  })
  void aWordsBitsAreInTheOrderOfThePorts(String word, String net) {
    Part chip = netlist.part("U90" + board.expander(word));
    for (int bit = 0; bit < 16; bit++) {
      assertThat(chip.net((bit < 8 ? "GPA" : "GPB") + bit % 8)).isEqualTo(net + (bit + 1));
    }
    assertThat(netlist.part("U90" + board.expander("trip-flag-m")).net("GPA0")).isEqualTo("FLAG_M");
  }

  @ParameterizedTest
  @CsvSource({
    "sense-a, SENSE_A", "sense-b, SENSE_B", "sense-m, SEN_M", "reference-high, LREF_SH",
    "reference-low, LREF_SL", "transimpedance, TI_OUT", "common, COM", "drive-bus, DRIVE",
    "return-bus, RETURN", "monitor-a, MONITOR_A", "monitor-b, MONITOR_B", "monitor-m, MON_M"
  })
  void aConverterInputIsOnItsNetThroughOneResistor(String input, String net) {
    String pin = netlist.part("U805").net("AIN" + board.converterInput(input));
    assertThat(netlist.nets().getOrDefault(pin, List.of()))
        .anySatisfy(
            end -> {
              assertThat(end.part().line().kind()).isEqualTo("resistor");
              assertThat(end.part().pins()).containsEntry("1", net);
            });
  }

  @Test
  void aMultiplexersChannelsAreThePortsInTheirOrder() {
    for (int port = 1; port <= 16; port++) {
      for (String ref : List.of("U801", "U803")) {
        assertThat(netlist.part(ref).net("S" + port)).isEqualTo("SEN_P" + port);
      }
      for (String ref : List.of("U802", "U804")) {
        assertThat(netlist.part(ref).net("S" + port)).isEqualTo("MON_P" + port);
      }
    }
  }

  /** The YAML's numbers stand there once; the circuit has parts for them. */
  @ParameterizedTest
  @CsvSource({
    "limiter-ohms, 2", "low-reference-ohms, 1", "mid-reference-ohms, 1", "high-reference-ohms, 1",
    "check-low-ohms, 1", "check-high-ohms, 1", "divider-top-ohms, 17", "divider-bottom-ohms, 17",
    "sense-tap-ohms, 17", "test-load-ohms, 17", "call-burden-ohms, 16", "call-load-ohms, 16",
    "event-wetting-ohms, 32", "guard-limiter-ohms, 1", "guard-sink-ohms, 1", "watchdog-ohms, 2",
    "watchdog-farads, 2", "call-limit-ohms, 2", "high-feedback-farads, 2"
  })
  void aNamedValueHasItsParts(String name, int count) {
    assertThat(netlist.parts())
        .filteredOn(part -> part.value() != null && part.value().names().contains(name))
        .hasSize(count);
  }

  /**
   * What lies between a terminal and its inner node: the relay's parts, by the netlist's values and
   * the models of the parts list. A MOSFET at rest is its drain's resistance and 1/(kp (V_gate −
   * vto)), the level 1 law far below saturation.
   */
  @ParameterizedTest
  @CsvSource({"P1", "P16", "M"})
  void theRelaysPathIsWhatTheFileSays(String port) {
    double ohms = 0;
    String net = "T_" + port;
    for (String ref : List.of("L401_", "Q401_", "R402_", "Q402_")) {
      Part part = netlist.part(ref + port);
      ohms += pathOhms(part);
      net = otherEnd(part, net);
    }
    assertThat(net).isEqualTo("INNER_" + port);
    assertThat(board.nominal("relay-ohms")).isCloseTo(ohms, within(0.05));
    // 1 % of the sense resistor, and each of the others up to twice what it is.
    assertThat(board.value("relay-ohms").tolerance()).isBetween(0.12, ohms - 12);
  }

  private static double pathOhms(Part part) {
    return switch (part.line().kind()) {
      case "resistor" -> Objects.requireNonNull(part.value()).of(name -> Double.NaN);
      case "inductor" ->
          number("R_<ref> <ref>_i <2> (\\S+)", String.join("\n", part.line().model()));
      case "mosfet" -> {
        String library = PartsList.library("parts.lib");
        double gate = number("\\* N-channel MOSFET.*ohm at (\\S+) V", library);
        double overdrive = gate - number("nfet nmos\\(level=1 vto=(\\S+)", library);
        yield number("Rd d d1 (\\S+)", library)
            + 1 / (number("nfet nmos\\(.* kp=(\\S+)", library) * overdrive);
      }
      default -> throw new AssertionError("kind=" + part.line().kind());
    };
  }

  private static String otherEnd(Part part, String net) {
    List<String> ends =
        part.line().kind().equals("mosfet")
            ? List.of(part.net("D"), part.net("S"))
            : List.of(part.net("1"), part.net("2"));
    assertThat(ends).as(part.ref()).contains(net);
    return ends.get(ends.get(0).equals(net) ? 1 : 0);
  }

  private static double number(String pattern, String text) {
    Matcher found = Pattern.compile(pattern).matcher(text);
    assertThat(found.find()).as(pattern).isTrue();
    return Double.parseDouble(found.group(1));
  }

  private void assertJoined(int bit, String source, String drain) {
    Part chip = netlist.part("U50" + (bit / 8 + 1));
    int channel = bit % 8 + 1;
    assertThat(List.of(chip.net("S" + channel), chip.net("D" + channel)))
        .as("bit " + bit)
        .containsExactly(source, drain);
  }

  private List<String> ports() {
    return netlist.lists().getOrDefault("ports", List.of());
  }

  /** The net on the cable side of the isolator that a GPIO of the header is on. */
  private String behindTheBarrier(int gpio) {
    String net = header.net("" + POSITIONS.get(gpio));
    for (Part part : netlist.parts()) {
      for (int channel = 1; channel <= 4 && part.line().kind().equals("isolator"); channel++) {
        if (part.net("A" + channel).equals(net)) {
          return part.net("B" + channel);
        }
      }
    }
    throw new AssertionError("GPIO " + gpio + ": no isolator on net " + net);
  }
}
