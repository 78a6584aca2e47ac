package bellwire.app.bench;

import bellwire.app.link.Transport;
import bellwire.app.rehearsal.Deed;
import bellwire.app.rehearsal.Hands;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.control.Operation;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.locks.LockSupport;

/**
 * The built-in simulated bench at the other end of the link: the agent runs while the host waits,
 * in virtual time.
 */
public final class BenchTransport implements Transport, Hands {

  /** FAST does not wait; REAL keeps virtual time at wall-clock time. */
  public enum Pace {
    FAST,
    REAL;

    /** How much faster than the wall clock's its time passes, at most. */
    public double speed() {
      return this == FAST ? Double.POSITIVE_INFINITY : 1;
    }
  }

  /** A bench file that can't be used; the message is one line with file, line and remedy. */
  public static final class BadBench extends Exception {
    private static final long serialVersionUID = 1L;

    BadBench(String message) {
      super(message);
    }
  }

  private final SimulatedDevice device;
  private final double speed;
  private final String name;
  private final long startNanos = System.nanoTime();

  private BenchTransport(SimulatedDevice device, double speed, String name) {
    this.device = device;
    this.speed = speed;
    this.name = name;
  }

  /** A device that somebody else has set up. */
  public static BenchTransport of(SimulatedDevice device) {
    return new BenchTransport(device, Pace.FAST.speed(), "the simulated bench");
  }

  public static BenchTransport open(Path file, Pace pace) throws BadBench {
    try {
      return new BenchTransport(
          new SimulatedDevice(BenchFile.read(file)), pace.speed(), file.toString());
    } catch (FileException e) {
      throw new BadBench(String.valueOf(e.getMessage()));
    } catch (IOException e) {
      throw new BadBench(file + ": cannot be read: is the name right, and may you read it?");
    }
  }

  /** The demo cable. */
  public static BenchTransport demo(Pace pace) throws BadBench {
    return builtIn("demo", pace.speed());
  }

  /**
   * One of the benches that come with Bellwire, by its file's name without the ending.
   *
   * @param speed how much faster than the wall clock's its time passes, at most
   */
  public static BenchTransport builtIn(String name, double speed) throws BadBench {
    String file = name + ".yaml";
    try (InputStream in = SimulatedDevice.class.getResourceAsStream("/benches/" + file)) {
      if (in == null) {
        throw new IllegalArgumentException("bench=" + name);
      }
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return new BenchTransport(
          new SimulatedDevice(BenchFile.parse(file, text)), speed, "the " + name + " bench");
    } catch (FileException e) {
      throw new BadBench(String.valueOf(e.getMessage()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Whether a room control is on the bench. */
  public boolean hasControl() {
    return device.control().isPresent();
  }

  /** Works the simulated control. */
  @Override
  public void perform(Deed deed) {
    device.operate(
        new Operation(
            deed.mode() == null ? null : Operation.Mode.valueOf(deed.mode().name()),
            deed.fan() == null ? null : Operation.Fan.valueOf(deed.fan().name()),
            deed.setKelvin(),
            deed.power()));
  }

  @Override
  public int read(byte[] into) {
    return device.read(into);
  }

  @Override
  public void write(byte[] bytes, int off, int len) {
    device.write(bytes, off, len);
  }

  @Override
  public long nowMicros() {
    return device.micros();
  }

  @Override
  public void await(long micros) {
    device.run(micros);
    double ahead = device.micros() * 1e3 / speed - (System.nanoTime() - startNanos);
    if (ahead > 0) {
      LockSupport.parkNanos((long) ahead);
    }
  }

  @Override
  public String name() {
    return name;
  }

  @Override
  public void close() {
    device.close();
  }
}
