package bellwire.agent.check;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is said of a serial device that is missing, taken, or of the poorer kind. */
class SerialLineTest {
  @TempDir Path directory;

  @Test
  void aMissingOneHasTheRemedyOfItsKind() {
    assertThat(lines("ttyGS0")).singleElement().asString().contains("modules-load=dwc2,g_serial");
    assertThat(lines("serial0"))
        .singleElement()
        .asString()
        .contains("enable_uart=1")
        .contains("dtparam=uart0=on");
    assertThat(lines("ttyUSB0")).singleElement().asString().contains("is it plugged in");
  }

  /** A link such as serial0 is followed: the kernel's words name the device behind it. */
  @Test
  void theKernelsConsoleIsNotOurs() throws IOException {
    words("console=ttyAMA0,115200 console=tty1 root=PARTUUID=1 rootwait");
    there("ttyAMA0");
    Files.createSymbolicLink(directory.resolve("serial0"), Path.of("ttyAMA0"));
    assertThat(lines("serial0"))
        .singleElement()
        .asString()
        .startsWith("FAIL  serial device ")
        .contains("console is on ttyAMA0")
        .contains("cmdline.txt");
    words("console=tty1 root=PARTUUID=1 rootwait");
    assertThat(lines("serial0")).singleElement().asString().startsWith("pass  serial device ");
  }

  @Test
  void aMiniUartIsNoted() throws IOException {
    words("console=tty1");
    there("ttyS0");
    assertThat(lines("ttyS0"))
        .hasSize(2)
        .last()
        .asString()
        .startsWith("note  ")
        .contains("dtoverlay=disable-bt");
    there("ttySC0");
    assertThat(lines("ttySC0")).hasSize(1);
  }

  private void there(String name) throws IOException {
    Files.createFile(directory.resolve(name));
  }

  private void words(String words) throws IOException {
    Files.writeString(directory.resolve("cmdline"), words + "\n");
  }

  private List<String> lines(String name) {
    return new SerialLine(directory.resolve(name).toString(), directory.resolve("cmdline"))
        .findings().stream().map(Finding::line).toList();
  }
}
