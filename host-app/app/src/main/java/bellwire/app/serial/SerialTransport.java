package bellwire.app.serial;

import bellwire.app.link.Transport;
import bellwire.app.survey.InstrumentTrouble;
import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * A serial device. One thread reads, one writes, so that a stalled peer never holds up the survey;
 * both queues are bounded, and what overflows is lost and asked for again by the link. A device
 * that vanishes (a plug pulled) is looked for until it is back or the transport is closed; how long
 * a survey waits for that is {@link bellwire.app.link.AgentInstrument}'s to say.
 */
public final class SerialTransport implements Transport {
  private static final int BUFFER_BYTES = 64 * 1024;
  private static final int QUEUE_BLOCKS = 256;
  private static final int READ_MILLIS = 100;
  private static final long REOPEN_MILLIS = 250;

  // What a Unix says of a device that does not open; the same on Linux and macOS but for EAGAIN.
  private static final int PERMISSION_DENIED = 13;
  private static final int BUSY = 16;
  private static final int NO_TERMINAL = 25;
  private static final int LOCKED_LINUX = 11;
  private static final int LOCKED_MACOS = 35;

  private final String device;
  private final int baud;
  private final BlockingQueue<byte[]> incoming = new ArrayBlockingQueue<>(QUEUE_BLOCKS);
  private final BlockingQueue<byte[]> outgoing = new ArrayBlockingQueue<>(QUEUE_BLOCKS);
  private final ArrayDeque<byte[]> ready = new ArrayDeque<>();
  private final CountDownLatch closing = new CountDownLatch(1);
  private volatile SerialPort port;
  private volatile boolean away;

  private SerialTransport(String device, int baud, SerialPort port) {
    this.device = device;
    this.baud = baud;
    this.port = port;
  }

  /**
   * Opens a device.
   *
   * @param device path or name, such as /dev/ttyACM0
   * @param baud of the line
   */
  public static SerialTransport open(String device, int baud) throws InstrumentTrouble {
    SerialTransport transport = new SerialTransport(device, baud, openPort(device, baud));
    start("serial reader", transport::readAll);
    start("serial writer", transport::writeAll);
    return transport;
  }

  private static SerialPort openPort(String device, int baud) throws InstrumentTrouble {
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
      throw new InstrumentTrouble(refusal(device, port.getLastErrorCode()));
    }
    return port;
  }

  private static String refusal(String device, int code) {
    if (device.startsWith("/")) {
      switch (code) {
        case BUSY, LOCKED_LINUX, LOCKED_MACOS -> {
          return device + " is in use by another program: end that, or name another device";
        }
        case PERMISSION_DENIED -> {
          return "you may not use "
              + device
              + ": join the group that may (often dialout), then log in again";
        }
        case NO_TERMINAL -> {
          return device + " is no serial device: 'bellwire ports' lists those there are";
        }
        default -> {}
      }
    }
    return "cannot open "
        + device
        + ": is it in use by another program, and may you use it (group dialout)? code="
        + code;
  }

  private static void start(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
  }

  private boolean closed() {
    return closing.getCount() == 0;
  }

  private void readAll() {
    byte[] buffer = new byte[BUFFER_BYTES];
    while (!closed()) {
      int n = port.readBytes(buffer, buffer.length);
      if (n < 0) {
        reopen();
      } else if (n > 0) {
        incoming.offer(Arrays.copyOf(buffer, n));
      }
    }
  }

  /** Only the reader opens again: a device that is gone gives it -1 at once. */
  private void reopen() {
    away = true;
    port.closePort();
    try {
      while (!closing.await(REOPEN_MILLIS, TimeUnit.MILLISECONDS)) {
        try {
          port = openPort(device, baud);
          if (closed()) {
            port.closePort(); // close() may have seen the port before this one
          }
          away = false;
          return;
        } catch (InstrumentTrouble e) {
          outgoing.clear();
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void writeAll() {
    try {
      while (!closed()) {
        byte[] block = outgoing.poll(READ_MILLIS, TimeUnit.MILLISECONDS);
        if (block != null && !away) {
          port.writeBytes(block, block.length); // what does not pass is sent again by the link
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
      return 0;
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
  public boolean away() {
    return away;
  }

  @Override
  public String name() {
    return device;
  }

  @Override
  public void close() {
    closing.countDown();
    port.closePort(); // frees a stalled write
  }
}
