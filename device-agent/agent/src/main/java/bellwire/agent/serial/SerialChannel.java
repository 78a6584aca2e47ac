package bellwire.agent.serial;

import bellwire.link.ByteChannel;
import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.jspecify.annotations.Nullable;

/**
 * A serial device as a byte pipe that never waits: one thread reads into a bounded queue, another
 * writes from one, and opens the device again when it was lost (a gadget's host unplugged, an
 * adapter pulled). Bytes that find a queue full are counted and dropped; the link's frames notice
 * and are sent again.
 *
 * <p>Settings as tried with jSerialComm 2.11.4: semi-blocking reads, blocking writes, no flow
 * control, DTR cleared before opening. {@code isOpen} stays true when the peer dies, a read then
 * gives -1 and a write 0.
 */
public final class SerialChannel implements ByteChannel, AutoCloseable {
  private static final int TIMEOUT_MILLIS = 100;
  private static final int CHUNK_BYTES = 4096;
  private static final int QUEUE_CHUNKS = 256;
  private static final long REOPEN_MILLIS = 500;
  private static final long JOIN_MILLIS = 1000;

  private final String device;
  private final int baud;
  private final BlockingQueue<byte[]> incoming = new ArrayBlockingQueue<>(QUEUE_CHUNKS);
  private final BlockingQueue<byte[]> outgoing = new ArrayBlockingQueue<>(QUEUE_CHUNKS);
  private final CountDownLatch closing = new CountDownLatch(1);
  private final AtomicLong dropped = new AtomicLong();
  private final Thread reader;
  private final Thread writer;
  private volatile SerialPort port;
  private volatile boolean closed;
  private byte @Nullable [] current;
  private int currentAt;

  private SerialChannel(String device, int baud, SerialPort port) {
    this.device = device;
    this.baud = baud;
    this.port = port;
    reader = new Thread(this::readLoop, "serial-reader");
    writer = new Thread(this::writeLoop, "serial-writer");
    reader.setDaemon(true);
    writer.setDaemon(true);
  }

  /**
   * @param device path such as /dev/ttyGS0
   * @param baud bits per second
   */
  public static SerialChannel open(String device, int baud) throws SerialTrouble {
    SerialChannel channel = new SerialChannel(device, baud, openPort(device, baud));
    channel.reader.start();
    channel.writer.start();
    return channel;
  }

  private static SerialPort openPort(String device, int baud) throws SerialTrouble {
    SerialPort port;
    try {
      port = SerialPort.getCommPort(device);
    } catch (SerialPortInvalidPortException e) {
      throw new SerialTrouble(device + ": no such serial device");
    }
    port.setBaudRate(baud);
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    port.setComPortTimeouts(
        SerialPort.TIMEOUT_READ_SEMI_BLOCKING | SerialPort.TIMEOUT_WRITE_BLOCKING,
        TIMEOUT_MILLIS,
        TIMEOUT_MILLIS);
    port.clearDTR();
    if (!port.openPort(0)) {
      throw new SerialTrouble(
          device + ": cannot be opened; join the group 'dialout', end other users of it");
    }
    return port;
  }

  @Override
  public int read(byte[] into) {
    if (current == null) {
      current = incoming.poll();
      currentAt = 0;
    }
    byte[] chunk = current;
    if (chunk == null) {
      return 0;
    }
    int count = Math.min(into.length, chunk.length - currentAt);
    System.arraycopy(chunk, currentAt, into, 0, count);
    currentAt += count;
    if (currentAt == chunk.length) {
      current = null;
    }
    return count;
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    byte[] chunk = new byte[len];
    System.arraycopy(bytes, off, chunk, 0, len);
    if (!outgoing.offer(chunk)) {
      dropped.addAndGet(len);
    }
  }

  /** Bytes dropped because a queue was full or the device away. */
  public long dropped() {
    return dropped.get();
  }

  private void readLoop() {
    byte[] buffer = new byte[CHUNK_BYTES];
    while (!closed) {
      int count = port.readBytes(buffer, buffer.length);
      if (count < 0) {
        reopen();
      } else if (count > 0) {
        byte[] chunk = new byte[count];
        System.arraycopy(buffer, 0, chunk, 0, count);
        if (!incoming.offer(chunk)) {
          dropped.addAndGet(count);
        }
      }
    }
  }

  private void writeLoop() {
    while (!closed) {
      try {
        byte[] chunk = outgoing.poll(TIMEOUT_MILLIS, TimeUnit.MILLISECONDS);
        if (chunk != null && port.writeBytes(chunk, chunk.length) != chunk.length) {
          dropped.addAndGet(chunk.length);
        }
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  /** Only the reader opens again: a device that is gone gives it -1 at once. */
  private void reopen() {
    port.closePort();
    while (!closed) {
      try {
        if (closing.await(REOPEN_MILLIS, TimeUnit.MILLISECONDS)) {
          return;
        }
        port = openPort(device, baud);
        if (closed) {
          port.closePort(); // close() may have seen the port before this one
        }
        return;
      } catch (SerialTrouble e) {
        outgoing.clear();
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  @Override
  public void close() {
    closed = true;
    closing.countDown();
    reader.interrupt();
    writer.interrupt();
    port.closePort(); // frees a stalled write
    try {
      reader.join(JOIN_MILLIS);
      writer.join(JOIN_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
