package bellwire.simbench.serve;

import bellwire.agent.record.RecordSettings;
import bellwire.agent.runtime.AgentLoop;
import bellwire.agent.runtime.LoopClock;
import bellwire.agent.serial.SerialChannel;
import bellwire.agent.serial.SerialTrouble;
import bellwire.simbench.SimulatedDevice;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.security.SecureRandom;
import org.jspecify.annotations.Nullable;

/**
 * Serves a bench file's simulated device on a serial device, in real time or faster, for a host in
 * another process or on another computer. Each line on standard input, an empty one too, is
 * answered with the state.
 */
public final class BenchOverSerial {
  private static final int WRONG_USAGE_OR_FILE = 2;
  private static final int TROUBLE = 3;
  private static final int BAUD = 921_600;
  private static final int TICK_MICROS = 1000;

  private BenchOverSerial() {}

  public static void main(String[] arguments) {
    int code = run(arguments);
    if (code != 0) {
      System.exit(code);
    }
  }

  private static int run(String[] arguments) {
    try {
      ServeOptions options = ServeOptions.parse(arguments);
      serve(options, BenchFile.read(options.bench()));
      return 0;
    } catch (ServeOptions.WrongUsage | FileException e) {
      return complain(WRONG_USAGE_OR_FILE, e.getMessage());
    } catch (IOException | UncheckedIOException e) {
      return complain(WRONG_USAGE_OR_FILE, "cannot be read: " + e.getMessage());
    } catch (SerialTrouble e) {
      return complain(TROUBLE, e.getMessage());
    }
  }

  private static void serve(ServeOptions options, Bench bench) throws SerialTrouble {
    try (SerialChannel line = SerialChannel.open(options.device(), BAUD);
        SimulatedDevice device =
            new SimulatedDevice(
                bench,
                bench.seed(),
                options.speed(),
                options.record().map(BenchOverSerial::disk))) {
      ServedBench served = new ServedBench(device, line, options.speed());
      AgentLoop[] loop = new AgentLoop[1];
      double untilMicros = options.forSeconds() * 1e6;
      loop[0] =
          new AgentLoop(
              new LoopClock(),
              (micros, due) -> {
                served.step(micros);
                answer(served);
                if (micros > untilMicros) {
                  loop[0].end();
                }
              },
              TICK_MICROS);
      System.out.println(
          "serving " + options.bench() + " on " + options.device() + " speed=" + options.speed());
      loop[0].run();
      System.out.println("ended: " + served.status());
    }
  }

  /** With each start another boot, as of a Pi that was switched off and on. */
  private static SimulatedDevice.Disk disk(Path directory) {
    RecordSettings settings = new RecordSettings(directory, RecordSettings.USUAL_BYTES);
    return new SimulatedDevice.Disk(settings, new SecureRandom().nextInt());
  }

  private static void answer(ServedBench served) {
    try {
      for (int waiting = System.in.available(); waiting > 0; waiting--) {
        if (System.in.read() == '\n') {
          System.out.println(served.status());
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static int complain(int code, @Nullable String message) {
    System.err.println("bench over serial: " + message);
    return code;
  }
}
