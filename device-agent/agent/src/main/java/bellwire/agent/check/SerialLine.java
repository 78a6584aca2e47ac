package bellwire.agent.check;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/**
 * The serial device that leads to the host: whether it is there and may be opened, whether the
 * kernel keeps it for its console, and what kind of UART is behind it.
 */
final class SerialLine {
  private final Path device;
  private final Path kernelWords;

  /**
   * @param kernelWords file of the kernel's command line
   */
  SerialLine(String device, Path kernelWords) {
    this.device = Path.of(device);
    this.kernelWords = kernelWords;
  }

  /** One finding or two. */
  List<Finding> findings() {
    String what = "serial device " + device;
    if (!Files.exists(device)) {
      return List.of(Finding.fail(what, "not there; " + remedy()));
    }
    String real = realName();
    if (consoles().contains(real)) {
      return List.of(
          Finding.fail(
              what,
              "the kernel's console is on "
                  + real
                  + "; take the word that begins with console=serial0, console=ttyAMA or"
                  + " console=ttyS out of cmdline.txt and start anew"));
    }
    Finding found = openable(what, device, "dialout");
    return isMiniUart(real)
        ? List.of(
            found,
            Finding.note(
                what,
                "a mini UART, whose rate follows the core's clock; "
                    + PiSetup.PL011_LINE
                    + " in config.txt puts the better one there"))
        : List.of(found);
  }

  private String remedy() {
    String name = String.valueOf(device.getFileName());
    if (name.startsWith("ttyGS")) {
      return "put "
          + PiSetup.GADGET_LINE
          + " into config.txt and "
          + PiSetup.GADGET_WORDS
          + " into cmdline.txt, or name another one in the configuration";
    }
    if (name.startsWith("ttyAMA") || name.startsWith("ttyS") || name.startsWith("serial")) {
      return "put "
          + PiSetup.UART_LINE
          + " into config.txt, on a Pi 5 "
          + PiSetup.UART_LINE_PI5
          + ", and start anew";
    }
    return "is it plugged in, and is serial-device right in the configuration?";
  }

  static Finding openable(String what, Path path, String group) {
    return Files.isReadable(path) && Files.isWritable(path)
        ? Finding.pass(what, "may be opened")
        : Finding.fail(what, "may not be opened; join the group " + group + ", log in anew");
  }

  private String realName() {
    try {
      return String.valueOf(device.toRealPath().getFileName());
    } catch (IOException e) {
      return String.valueOf(device.getFileName());
    }
  }

  /** On a Pi before the 5: the second kind, of 8250 type. */
  private static boolean isMiniUart(String real) {
    return real.matches("ttyS\\d+");
  }

  private List<String> consoles() {
    try {
      return List.of(Files.readString(kernelWords).split("\\s+")).stream()
          .filter(word -> word.startsWith("console="))
          .map(word -> word.substring("console=".length()).replaceFirst(",.*", ""))
          .toList();
    } catch (IOException e) {
      return List.of();
    }
  }
}
