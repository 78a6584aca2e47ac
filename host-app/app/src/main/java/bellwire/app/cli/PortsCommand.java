package bellwire.app.cli;

import bellwire.app.serial.SerialDevices;
import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code bellwire ports}. */
@Command(
    name = "ports",
    description = "Lists the serial devices of this computer.",
    mixinStandardHelpOptions = true)
final class PortsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    List<SerialDevices.Device> devices = SerialDevices.list();
    if (devices.isEmpty()) {
      out.println(
          "no serial device: plug the board's cable in, and see that you may use serial devices (group dialout)");
    }
    devices.forEach(device -> out.println(device.path() + "  " + device.description()));
    return ExitCode.ALL_SOUND.status();
  }
}
