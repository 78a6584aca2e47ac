package bellwire.simbench.kernel;

import bellwire.agent.runtime.LoopClock;
import bellwire.board.BoardDescription;
import bellwire.board.BoardDescription.SpiDevice;
import bellwire.simbench.SimulatedBoard;
import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.ServerSocketChannel;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A simulated board behind a Pi's device files, in real time: answers what {@code devices.c} in
 * front of a program's C library carries here. One program at a time; when it ends, its devices are
 * closed, and the next may come. The bench's time begins as the converter is first spoken to, which
 * is a moment after the agent's start.
 *
 * <p>What is simulated is the system call: names of devices, modes a bus refuses, lines in use,
 * transfers that fail. The kernel's drivers, their timing and the wires behind them are not.
 */
public final class KernelDevices implements AutoCloseable {
  private static final int OPEN = 0;
  private static final int CLOSE = 1;
  private static final int LONGEST = 4096;
  private static final long NOT_BEGUN = -1;
  private static final List<String> SPI = List.of("converter", "expanders", "crosspoint");

  private final SimulatedBoard board;
  private final Path socket;
  private final ServerSocketChannel door;
  private final Thread thread;
  private final LoopClock clock = new LoopClock();
  private long originNanos = NOT_BEGUN;
  private final double speed;
  private final Map<Integer, Node> nodes = new HashMap<>();
  private final Map<String, Mishap> mishaps = new ConcurrentHashMap<>();
  private final GpioChip gpio;
  private int last;
  private long transfers;
  private volatile @Nullable SocketChannel caller;

  /**
   * @param socket where the program's side finds it; must not exist
   * @param speed the bench's seconds in one second
   * @throws UncheckedIOException where the socket cannot be had
   */
  public KernelDevices(SimulatedBoard board, Path socket, double speed) {
    this.board = board;
    this.socket = socket;
    this.speed = speed;
    gpio = new GpioChip(board.description(), board.chips(), this::number);
    try {
      door = ServerSocketChannel.open(StandardProtocolFamily.UNIX);
      door.bind(UnixDomainSocketAddress.of(socket));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    socket.toFile().deleteOnExit();
    thread = new Thread(this::serve, "kernel-devices");
    thread.setDaemon(true);
    thread.start();
  }

  /** What transfers of this SPI device meet from now on, by its name in the board description. */
  public void mishap(String device, Mishap mishap) {
    mishaps.put(device, mishap);
  }

  /** Does something to the board, or looks at it, between two system calls, at the present time. */
  public synchronized <T> T with(Function<SimulatedBoard, T> work) {
    now();
    return work.apply(board);
  }

  /** As if another program held this GPIO line, or let go of it. */
  public synchronized void take(int line, boolean hold) {
    gpio.take(line, hold);
  }

  /** SPI transfers so far. */
  public synchronized long transfers() {
    return transfers;
  }

  private void now() {
    if (originNanos != NOT_BEGUN) {
      board.advanceTo((long) ((clock.nanos() - originNanos) * speed));
    }
  }

  private void serve() {
    while (door.isOpen()) {
      try (SocketChannel line = door.accept()) {
        caller = line;
        answer(line);
      } catch (ClosedChannelException e) {
        return;
      } catch (IOException e) {
        // The program has ended, as its devices' owner does.
      } finally {
        closeAll();
      }
    }
  }

  private void answer(SocketChannel line) throws IOException {
    ByteBuffer head = ByteBuffer.allocate(12).order(ByteOrder.LITTLE_ENDIAN);
    ByteBuffer out = ByteBuffer.allocate(8 + LONGEST).order(ByteOrder.LITTLE_ENDIAN);
    while (true) {
      fill(line, head);
      int length = head.getInt(8);
      if (length < 0 || length > LONGEST) {
        throw new IOException("length=" + length);
      }
      byte[] argument = new byte[length];
      fill(line, ByteBuffer.wrap(argument));
      int result = call(head.getInt(0), head.getInt(4), argument);
      out.clear().putInt(result).putInt(length).put(argument).flip();
      while (out.hasRemaining()) {
        line.write(out);
      }
    }
  }

  private static void fill(SocketChannel line, ByteBuffer into) throws IOException {
    into.clear();
    while (into.hasRemaining()) {
      if (line.read(into) < 0) {
        throw new EOFException();
      }
    }
  }

  private synchronized int call(int node, int request, byte[] argument) {
    now();
    if (node == 0) {
      return request == OPEN ? open(new String(argument, StandardCharsets.UTF_8)) : Errno.EINVAL;
    }
    Node there = nodes.get(node);
    if (there == null) {
      return Errno.ENODEV;
    }
    if (request == CLOSE) {
      nodes.remove(node);
      there.close();
      return 0;
    }
    if (there instanceof SpiNode device) {
      transfers++;
      if (originNanos == NOT_BEGUN && device.measures()) {
        originNanos = clock.nanos();
      }
    }
    return there.control(request, argument);
  }

  private int open(String path) {
    if (path.equals("/dev/gpiochip0")) {
      return number(gpio);
    }
    BoardDescription description = board.description();
    for (String name : SPI) {
      SpiDevice device = description.spi(name);
      if (path.equals("/dev/spidev" + device.bus() + "." + device.chipSelect())) {
        return mishap(name) == Mishap.GONE ? Errno.ENOENT : number(spi(name, device));
      }
    }
    return Errno.ENOENT;
  }

  private SpiNode spi(String name, SpiDevice device) {
    boolean converter = name.equals("converter");
    return new SpiNode(device, converter, board.chips().device(name), () -> mishap(name));
  }

  private Mishap mishap(String device) {
    return mishaps.getOrDefault(device, Mishap.NONE);
  }

  private int number(Node node) {
    nodes.put(++last, node);
    return last;
  }

  private synchronized void closeAll() {
    nodes.values().forEach(Node::close);
    nodes.clear();
  }

  @Override
  public void close() {
    try {
      door.close();
      SocketChannel line = caller;
      if (line != null) {
        line.close();
      }
      thread.join(2000);
      Files.deleteIfExists(socket);
    } catch (IOException e) {
      // Closed is all that was wanted.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
