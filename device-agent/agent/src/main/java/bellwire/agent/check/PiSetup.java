package bellwire.agent.check;

/**
 * Lines of {@code config.txt} and words of {@code cmdline.txt} that a Pi needs, as docs/install.md
 * tells them with their sources.
 */
final class PiSetup {
  /** SPI0 with chip selects 0 and 1: GPIO 7 to 11. */
  static final String SPI0_LINE = "dtparam=spi=on";

  /** SPI1, of whose three chip selects only the third gets a device: GPIO 16 to 21. */
  static final String SPI1_LINE = "dtoverlay=spi1-3cs,cs0_spidev=off,cs1_spidev=off";

  static final String GADGET_LINE = "dtoverlay=dwc2,dr_mode=peripheral";
  static final String GADGET_WORDS = "modules-load=dwc2,g_serial";
  static final String UART_LINE = "enable_uart=1";
  static final String UART_LINE_PI5 = "dtparam=uart0=on";
  static final String PL011_LINE = "dtoverlay=disable-bt";

  private PiSetup() {}

  /** The line for an SPI bus. */
  static String spiLine(int bus) {
    return bus == 0 ? SPI0_LINE : SPI1_LINE;
  }
}
