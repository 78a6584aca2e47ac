package bellwire.agent.check;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What is said of setting up a Pi, in five places: the same, and fit for the board's pins. */
class PiSetupTest {
  /**
   * Lines that the two SPI overlays take: Raspberry Pi documentation, 'Serial peripheral
   * interface', tables SPI0 and SPI1, and the kernel's overlays/README, spi0-2cs and spi1-3cs.
   */
  private static final Set<Integer> TAKEN_BY_SPI = Set.of(7, 8, 9, 10, 11, 16, 17, 18, 19, 20, 21);

  /** Transmit and receive of the primary UART: the same documentation, 'Configuring UARTs'. */
  private static final Set<Integer> TAKEN_BY_UART = Set.of(14, 15);

  private static final List<String> PLACES =
      List.of(
          "src/deb/examples/config.txt", "src/deb/files/bellwire-agent.8", "../../docs/install.md");

  @Test
  void everyPlaceNamesTheLinesThatTheCheckAsksFor() throws IOException {
    for (String place : PLACES) {
      assertThat(text(place))
          .as(place)
          .contains(
              PiSetup.SPI0_LINE,
              PiSetup.SPI1_LINE,
              PiSetup.GADGET_LINE,
              PiSetup.UART_LINE,
              PiSetup.UART_LINE_PI5,
              PiSetup.PL011_LINE);
    }
    assertThat(text("agent.conf")).contains(PiSetup.SPI0_LINE, PiSetup.SPI1_LINE);
    for (String place :
        List.of(
            "src/deb/examples/cmdline.txt",
            "src/deb/files/bellwire-agent.8",
            "../../docs/install.md")) {
      assertThat(text(place)).as(place).contains(PiSetup.GADGET_WORDS);
    }
  }

  @Test
  void theBusesThatTheLinesOpenAreTheBoards() {
    BoardDescription board = BoardDescription.revisionA();
    // spi=on: bus 0, selects 0 and 1. spi1-3cs without the first two: bus 1, select 2.
    assertThat(List.of("converter", "expanders", "crosspoint"))
        .extracting(name -> board.spi(name).bus() + "." + board.spi(name).chipSelect())
        .containsExactly("0.0", "0.1", "1.2");
  }

  @Test
  void noLineOfTheBoardIsTakenByABusOrTheUart() throws IOException {
    Set<Integer> lines = linesOfTheBoard();
    assertThat(lines).hasSize(6);
    assertThat(lines).doesNotContainAnyElementsOf(TAKEN_BY_SPI);
    assertThat(lines).doesNotContainAnyElementsOf(TAKEN_BY_UART);
  }

  /** The overlay that leaves two pins free takes no line of the board either. */
  @Test
  void theOwnOverlayTakesFewerOfTheSamePins() throws IOException {
    Set<Integer> taken = new TreeSet<>();
    for (MatchResult pins :
        Pattern.compile("brcm,pins = <([0-9 ]+)>")
            .matcher(text("src/deb/examples/bellwire-spi1.dts"))
            .results()
            .toList()) {
      for (String pin : pins.group(1).split(" ")) {
        taken.add(Integer.valueOf(pin));
      }
    }
    assertThat(taken).containsExactly(16, 19, 20, 21);
    assertThat(TAKEN_BY_SPI).containsAll(taken);
  }

  /** The lines of the data file's section 'pi' that are one number. */
  private static Set<Integer> linesOfTheBoard() throws IOException {
    String all = text("../../hardware-notes/sensing-board-a.yaml");
    String section = all.substring(all.indexOf("\npi:"), all.indexOf("\nchain:"));
    Set<Integer> lines = new TreeSet<>();
    Pattern.compile("\n  [a-z-]+: ([0-9]+) ")
        .matcher(section)
        .results()
        .forEach(line -> lines.add(Integer.valueOf(line.group(1))));
    return lines;
  }

  /** With the manual page's hyphens as they are read. */
  private static String text(String place) throws IOException {
    return Files.readString(Path.of(place)).replace("\\-", "-");
  }
}
