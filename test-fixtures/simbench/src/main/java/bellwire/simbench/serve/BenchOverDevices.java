package bellwire.simbench.serve;

import bellwire.agent.runtime.AgentLoop;
import bellwire.agent.runtime.LoopClock;
import bellwire.simbench.SimulatedBoard;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.simbench.kernel.KernelDevices;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Serves a bench file's board as a Pi's SPI and GPIO devices to the agent's own program, on a UNIX
 * socket; DEVELOPERS.md says how the program is made to find it. Each line on standard input, an
 * empty one too, is answered with the state.
 */
public final class BenchOverDevices {
  private static final int WRONG_USAGE_OR_FILE = 2;
  private static final int TICK_MICROS = 200_000;

  private BenchOverDevices() {}

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
      return complain(e.getMessage());
    } catch (IOException | UncheckedIOException e) {
      return complain("cannot be read: " + e.getMessage());
    }
  }

  private static void serve(ServeOptions options, Bench bench) {
    SimulatedBoard board = new SimulatedBoard(bench, bench.seed());
    try (KernelDevices devices =
        new KernelDevices(board, Path.of(options.device()), options.speed())) {
      System.out.println("serving " + options.bench() + " on " + options.device());
      double untilMicros = options.forSeconds() * 1e6;
      AgentLoop[] loop = new AgentLoop[1];
      loop[0] =
          new AgentLoop(
              new LoopClock(),
              (micros, due) -> {
                answer(devices);
                if (micros > untilMicros) {
                  loop[0].end();
                }
              },
              TICK_MICROS);
      loop[0].run();
      System.out.println("ended: " + status(devices));
    }
  }

  private static void answer(KernelDevices devices) {
    try {
      for (int waiting = System.in.available(); waiting > 0; waiting--) {
        if (System.in.read() == '\n') {
          System.out.println(status(devices));
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String status(KernelDevices devices) {
    String now =
        devices.with(
            board ->
                String.format(
                    Locale.ROOT,
                    "time=%.3f s relays=%s",
                    board.nanos() * 1e-9,
                    board.relaysClosed() ? "closed" : "open"));
    return now + " transfers=" + devices.transfers();
  }

  private static int complain(@Nullable String message) {
    System.err.println("bench over devices: " + message);
    return WRONG_USAGE_OR_FILE;
  }
}
