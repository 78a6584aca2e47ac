package bellwire.agent.pi;

import bellwire.board.BoardDescription;
import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalInputProvider;
import com.pi4j.plugin.gpiod.provider.gpio.digital.GpioDDigitalOutputProvider;
import com.pi4j.plugin.linuxfs.provider.spi.LinuxFsSpiProvider;

/** The real thing: SPI by the kernel's spidev, lines by its GPIO character device. */
public final class RaspberryPi {

  private RaspberryPi() {}

  /** Nothing is detected by search: only the providers the agent uses are there. */
  public static PiBoard open(BoardDescription board) {
    Context context =
        Pi4J.newContextBuilder()
            .noAutoDetect()
            .disableShutdownHook()
            .add(
                LinuxFsSpiProvider.newInstance(),
                GpioDDigitalInputProvider.newInstance(),
                GpioDDigitalOutputProvider.newInstance())
            .build();
    return PiBoard.open(context, board);
  }
}
