package bellwire.agent.runtime;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.nio.charset.StandardCharsets;
import org.jspecify.annotations.Nullable;

/**
 * Tells systemd that the agent is ready and still steps, where systemd started it and wants to know
 * (sd_notify(3), sd_watchdog_enabled(3)); otherwise nothing is told. The words go to a datagram
 * socket, which Java itself does not have.
 */
public final class Supervisor implements AutoCloseable {
  private static final int UNIX = 1;
  private static final int DATAGRAM = 2;
  private static final int CLOSE_ON_EXEC = 0x80000;
  private static final int NO_SIGNAL = 0x4000;
  private static final int DONT_WAIT = 0x40;
  private static final int LONGEST_PATH = 107;

  /** Told several times within the time after which systemd gives the agent up. */
  private static final int PER_TIMEOUT = 4;

  private static final byte[] ALIVE = bytes("WATCHDOG=1");

  /** The C library's part. */
  private interface Sockets extends Library {
    int socket(int domain, int type, int protocol) throws LastErrorException;

    NativeLong sendto(
        int socket, byte[] words, NativeLong length, int flags, byte[] to, int toLength)
        throws LastErrorException;

    int close(int socket) throws LastErrorException;
  }

  private final @Nullable Sockets library;
  private final byte[] address;
  private final int socket;
  private final long everyMicros;
  private long toldMicros;

  private Supervisor(@Nullable Sockets library, byte[] address, int socket, long everyMicros) {
    this.library = library;
    this.address = address;
    this.socket = socket;
    this.everyMicros = everyMicros;
    toldMicros = Long.MIN_VALUE / 2;
  }

  /** The one that started this program, by NOTIFY_SOCKET and WATCHDOG_USEC; or nobody. */
  public static Supervisor ofEnvironment() {
    return of(System.getenv("NOTIFY_SOCKET"), System.getenv("WATCHDOG_USEC"));
  }

  static Supervisor of(@Nullable String path, @Nullable String watchdogMicros) {
    if (path == null || path.isEmpty() || bytes(path).length > LONGEST_PATH) {
      return new Supervisor(null, new byte[0], -1, 0);
    }
    try {
      Sockets library = Native.load("c", Sockets.class);
      int socket = library.socket(UNIX, DATAGRAM | CLOSE_ON_EXEC, 0);
      return new Supervisor(library, address(path), socket, every(watchdogMicros));
    } catch (LastErrorException | UnsatisfiedLinkError e) {
      return new Supervisor(null, new byte[0], -1, 0); // systemd will say that nobody spoke
    }
  }

  /** struct sockaddr_un; a name that begins with @ is none of a file. */
  private static byte[] address(String path) {
    byte[] name = bytes(path);
    byte[] address = new byte[2 + name.length];
    boolean little = java.nio.ByteOrder.nativeOrder() == java.nio.ByteOrder.LITTLE_ENDIAN;
    address[little ? 0 : 1] = UNIX;
    System.arraycopy(name, 0, address, 2, name.length);
    if (name[0] == '@') {
      address[2] = 0;
    }
    return address;
  }

  private static long every(@Nullable String watchdogMicros) {
    if (watchdogMicros == null || !watchdogMicros.matches("[0-9]{1,15}")) {
      return 0;
    }
    return Math.max(1, Long.parseLong(watchdogMicros) / PER_TIMEOUT);
  }

  /** The board is claimed, the serial device open. */
  public void ready() {
    tell(bytes("READY=1"));
  }

  /** A step was taken; told on now and then. */
  public void alive(long nowMicros) {
    if (everyMicros > 0 && nowMicros - toldMicros >= everyMicros) {
      toldMicros = nowMicros;
      tell(ALIVE);
    }
  }

  public void stopping() {
    tell(bytes("STOPPING=1"));
  }

  /** Never waits: a supervisor that does not listen must not hold up a step. */
  private void tell(byte[] words) {
    if (library == null) {
      return;
    }
    try {
      library.sendto(
          socket,
          words,
          new NativeLong(words.length),
          NO_SIGNAL | DONT_WAIT,
          address,
          address.length);
    } catch (LastErrorException e) {
      // It asks again, or restarts the agent.
    }
  }

  @Override
  public void close() {
    if (library != null) {
      stopping();
      try {
        library.close(socket);
      } catch (LastErrorException e) {
        // The program ends.
      }
    }
  }

  private static byte[] bytes(String words) {
    return words.getBytes(StandardCharsets.UTF_8);
  }
}
