package bellwire.agent.check;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.agent.pi.PiBoard;
import bellwire.agent.record.RecordSettings;
import bellwire.board.BoardDescription;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Each precondition that fails has its remedy; the board is asked only when none does. */
class PreconditionsTest {
  @TempDir Path devices;

  private final List<String> lines = new ArrayList<>();

  @Test
  void onAComputerThatIsNoPiEachRemedyIsTold() {
    Path nowhere = devices.resolve("no-such-directory");
    assertThat(check("/dev/ttyGS9", Optional.of(new RecordSettings(nowhere, 1 << 20)))).isFalse();
    assertThat(lines)
        .anySatisfy(line -> assertThat(line).startsWith("pass  Java: "))
        .anySatisfy(
            line -> assertThat(line).startsWith("FAIL  converter, ").contains("put dtparam=spi=on"))
        .anySatisfy(
            line ->
                assertThat(line)
                    .startsWith("FAIL  crosspoint, ")
                    .contains(
                        "/spidev1.2: not there; put dtoverlay=spi1-3cs,cs0_spidev=off,cs1_spidev=off"))
        .anySatisfy(line -> assertThat(line).startsWith("FAIL  GPIO: no "))
        .anySatisfy(
            line ->
                assertThat(line)
                    .startsWith("FAIL  serial device /dev/ttyGS9: ")
                    .contains("dtoverlay=dwc2,dr_mode=peripheral"))
        .anySatisfy(
            line -> assertThat(line).startsWith("FAIL  record: ").contains("sudo install -d -o "))
        .anySatisfy(line -> assertThat(line).contains("tick: 2000 ticks"))
        .last()
        .isEqualTo("note  board: not asked: mend the above first");
  }

  @Test
  void whatIsThereAndMayBeOpenedPasses() throws Exception {
    for (String name : List.of("spidev0.0", "spidev0.1", "spidev1.2", "gpiochip4")) {
      Files.createFile(devices.resolve(name));
    }
    Path serial = Files.createFile(devices.resolve("ttyUSB0"));
    // Ordinary files are no buses: all passes until the board is asked.
    assertThat(check(serial.toString(), Optional.of(new RecordSettings(devices, 1 << 20))))
        .isFalse();
    assertThat(lines).filteredOn(line -> line.startsWith("FAIL")).hasSize(1);
    assertThat(lines).last().asString().startsWith("FAIL  board: converter: ");
    assertThat(lines)
        .anySatisfy(line -> assertThat(line).startsWith("pass  GPIO: ").contains("gpiochip4"))
        .anySatisfy(line -> assertThat(line).startsWith("pass  record: "));
  }

  @Test
  void noRecordIsNoFault() {
    check("/dev/null", Optional.empty());
    assertThat(lines).contains("note  record: none: a vigil lasts only while a host listens");
  }

  private boolean check(String serial, Optional<RecordSettings> record) {
    return new Preconditions(
            new Preconditions.Needs(
                devices,
                devices.resolve("cmdline"),
                serial,
                PiBoard.Providers.RASPBERRY_PI,
                500,
                record),
            BoardDescription.revisionA(),
            finding -> lines.add(finding.line()))
        .hold();
  }
}
