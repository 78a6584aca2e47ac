package bellwire.app.serial;

import bellwire.app.link.Transport;
import bellwire.app.survey.InstrumentTrouble;
import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * A serial device. One thread reads, one writes, so that a stalled peer never holds up the survey;
 * both queues are bounded, and what overflows is lost and asked for again by the link.
 */
public final class SerialTransport implements Transport {
  private static final int BUFFER_BYTES = 64 * 1024;
  private static final int QUEUE_BLOCKS = 256;
  private static final int READ_MILLIS = 100;

  private final SerialPort port;
  private final BlockingQueue<byte[]> incoming = new ArrayBlockingQueue<>(QUEUE_BLOCKS);
  private final BlockingQueue<byte[]> outgoing = new ArrayBlockingQueue<>(QUEUE_BLOCKS);
  private final ArrayDeque<byte[]> ready = new ArrayDeque<>();
  private volatile boolean open = true;
  private volatile boolean gone;

  private SerialTransport(SerialPort port) {
    this.port = port;
    start("serial reader", this::readAll);
    start("serial writer", this::writeAll);
  }

  /**
   * Opens a device.
   *
   * @param device path or name, such as /dev/ttyACM0
   * @param baud of the line
   */
  public static SerialTransport open(String device, int baud) throws InstrumentTrouble {
    SerialPort port;
    try {
      port = SerialPort.getCommPort(device);
    } catch (SerialPortInvalidPortException e) {
      throw new InstrumentTrouble(
          "no serial device " + device + ": 'bellwire ports' lists those there are");
    }
    port.setComPortParameters(baud, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    port.setComPortTimeouts(
        SerialPort.TIMEOUT_READ_SEMI_BLOCKING | SerialPort.TIMEOUT_WRITE_BLOCKING, READ_MILLIS, 0);
    port.clearDTR();
    if (!port.openPort(0)) {
      throw new InstrumentTrouble(
          "cannot open "
              + device
              + ": is it in use by another program, and are you in the group that may use it (dialout)?");
    }
    return new SerialTransport(port);
  }

  private static void start(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  private void readAll() {
    byte[] buffer = new byte[BUFFER_BYTES];
    while (open) {
      int n = port.readBytes(buffer, buffer.length);
      if (n < 0) {
        gone = true;
        return;
      }
      if (n > 0) {
        incoming.offer(Arrays.copyOf(buffer, n));
      }
    }
  }

  private void writeAll() {
    try {
      while (open) {
        byte[] block = outgoing.poll(READ_MILLIS, TimeUnit.MILLISECONDS);
        if (block != null && port.writeBytes(block, block.length) <= 0) {
          gone = true;
          return;
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public int read(byte[] into) {
    byte @Nullable [] block = ready.poll();
    if (block == null) {
      block = incoming.poll();
    }
    if (block == null) {
      return gone ? -1 : 0;
    }
    int n = Math.min(block.length, into.length);
    System.arraycopy(block, 0, into, 0, n);
    if (n < block.length) {
      ready.addFirst(Arrays.copyOfRange(block, n, block.length));
    }
    return n;
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    outgoing.offer(Arrays.copyOfRange(bytes, off, off + len));
  }

  @Override
  public long nowMicros() {
    return System.nanoTime() / 1000;
  }

  @Override
  public void await(long micros) {
    try {
      if (ready.isEmpty()) {
        byte[] block = incoming.poll(micros, TimeUnit.MICROSECONDS);
        if (block != null) {
          ready.add(block);
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public String name() {
    return port.getSystemPortPath();
  }

  @Override
  public void close() {
    open = false;
    port.closePort();
  }
}
