package bellwire.simbench.serve;

import bellwire.agent.Agent;
import bellwire.agent.EndpointLink;
import bellwire.agent.runtime.AgentLoop;
import bellwire.agent.runtime.LoopClock;
import bellwire.agent.runtime.Measurement;
import bellwire.agent.serial.SerialChannel;
import bellwire.agent.serial.SerialTrouble;
import bellwire.simbench.SimulatedBoard;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import bellwire.simbench.pi4j.SimulatedPi;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.security.SecureRandom;
import org.jspecify.annotations.Nullable;

/**
 * Serves a bench file's device on a serial device as the agent's own program does, its loop in real
 * time, and prints at the end how well it kept its tick. What the simulated chips and copper cost
 * is in the figures.
 */
public final class TickOnBench {
  private static final int WRONG_USAGE_OR_FILE = 2;
  private static final int TROUBLE = 3;
  private static final int BAUD = 921_600;
  private static final int TICK_MICROS = 1000;

  private TickOnBench() {}

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
    SimulatedBoard board = new SimulatedBoard(bench, bench.seed());
    String revision = board.description().revision();
    try (SerialChannel line = SerialChannel.open(options.device(), BAUD);
        SimulatedPi pi = SimulatedPi.open(board.chips(), board.description());
        EndpointLink link =
            EndpointLink.open(
                line, new SecureRandom().nextLong(1, Long.MAX_VALUE), "bench", revision, BAUD)) {
      LoopClock clock = new LoopClock();
      Agent agent =
          new Agent(pi.sensingBoard(), board.description(), link, TICK_MICROS, clock::micros);
      Measurement measurement = new Measurement((int) options.forSeconds(), TICK_MICROS);
      System.out.println("serving " + options.bench() + " on " + options.device());
      new AgentLoop(
              clock,
              (micros, due) -> {
                board.advanceTo(micros * 1000);
                agent.step(micros, due);
              },
              TICK_MICROS,
              measurement)
          .run();
      measurement.lines().forEach(System.out::println);
    }
  }

  private static int complain(int code, @Nullable String message) {
    System.err.println("tick on bench: " + message);
    return code;
  }
}
