package bellwire.app.serial;

import com.fazecast.jSerialComm.SerialPort;
import java.util.ArrayList;
import java.util.List;

/** The serial devices of this computer. */
public final class SerialDevices {
  private SerialDevices() {}

  /**
   * @param path to open it by
   * @param description as the operating system gives it
   */
  public record Device(String path, String description) {}

  public static List<Device> list() {
    List<Device> devices = new ArrayList<>();
    for (SerialPort port : SerialPort.getCommPorts()) {
      devices.add(new Device(port.getSystemPortPath(), port.getPortDescription()));
    }
    return devices;
  }
}
