package bellwire.app.cli;

import bellwire.app.link.AgentVigil;
import bellwire.app.serial.SerialTransport;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.vigil.Unstored;
import bellwire.app.vigil.VigilRun;
import bellwire.link.HostEndpoint;
import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire vigil end}: has a board let go that was left to watch alone. */
@Command(
    name = "end",
    description =
        "Ends the vigil that a board keeps alone; what it recorded stays there until 'vigil start"
            + " --resume' has fetched it.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class VigilEndCommand implements Callable<Integer> {
  /** Nothing more of the record comes once nothing has come for so long. */
  private static final long QUIET_MICROS = 1_000_000;

  @Option(
      names = "--port",
      required = true,
      paramLabel = "DEV",
      description = "Serial device of the board; 'bellwire ports' lists them.")
  private String port = "";

  @Option(
      names = "--forget",
      description = "Has the board forget what it recorded and nobody has fetched. For ever.")
  private boolean forget;

  @Mixin private LineOptions line = new LineOptions();

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Interrupt interrupt = new Interrupt();
    interrupt.arm();
    Unstored feed = new Unstored();
    try (AgentVigil board =
        new AgentVigil(
            SerialTransport.open(port, line.baud),
            HostEndpoint.Timing.forBaud(line.baud),
            feed,
            interrupt::pressed,
            new SplittableRandom().nextLong(1L << 40),
            out::println)) {
      board.open(List.of());
      OptionalLong vigil = board.underWay();
      if (vigil.isPresent()) {
        end(board, vigil.getAsLong());
        out.println("vigil " + vigil.getAsLong() + " is over; the board has let go");
      } else {
        out.println("the board keeps no vigil");
      }
      if (forget) {
        out.println("forgotten: " + forget(board, feed) + " messages of the board's record");
      }
      return ExitCode.ALL_SOUND.ifPrinted(out, err);
    } catch (InstrumentTrouble e) {
      err.println("bellwire: " + e.getMessage());
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (Cancelled e) {
      err.println("bellwire: stopped");
      return ExitCode.INTERRUPTED.status();
    } finally {
      interrupt.done();
    }
  }

  private static void end(AgentVigil board, long vigil) throws InstrumentTrouble {
    board.follow(vigil);
    board.stop();
    if (!board.letGo()) {
      throw new InstrumentTrouble(VigilRun.NOT_LET_GO);
    }
  }

  private static long forget(AgentVigil board, Unstored feed) throws InstrumentTrouble {
    long before;
    do {
      before = feed.messages();
      board.linger(QUIET_MICROS);
      board.stored(board.boot(), feed.next());
      board.part();
    } while (feed.messages() != before);
    return feed.messages();
  }
}
