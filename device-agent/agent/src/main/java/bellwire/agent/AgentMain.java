package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.check.Preconditions;
import bellwire.agent.chip.ChipTrouble;
import bellwire.agent.pi.PiBoard;
import bellwire.agent.pi.PiTrouble;
import bellwire.agent.pi.RaspberryPi;
import bellwire.agent.record.FrameLog;
import bellwire.agent.runtime.AgentLoop;
import bellwire.agent.runtime.LoopClock;
import bellwire.agent.runtime.Measurement;
import bellwire.agent.runtime.Supervisor;
import bellwire.agent.serial.SerialChannel;
import bellwire.agent.serial.SerialTrouble;
import bellwire.board.BoardDescription;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/** The agent as a program: {@code bellwire-agent [check | tick SECONDS] [configuration file]}. */
public final class AgentMain {
  private static final int WRONG_USAGE = 2;
  private static final int TROUBLE = 3;
  private static final long LET_GO_SECONDS = 3;

  private AgentMain() {}

  public static void main(String[] arguments) {
    int code = run(arguments);
    if (code != 0) {
      System.exit(code);
    }
  }

  private static int run(String[] arguments) {
    try {
      AgentArguments asked = AgentArguments.of(List.of(arguments));
      AgentConfiguration configuration =
          asked.configuration().isEmpty()
              ? AgentConfiguration.defaults()
              : AgentConfiguration.read(asked.configuration().get());
      if (asked.check()) {
        return check(configuration) ? 0 : TROUBLE;
      }
      serve(configuration, asked.tickSeconds());
      return 0;
    } catch (AgentArguments.Wrong | AgentConfiguration.Unusable e) {
      return complain(WRONG_USAGE, e.getMessage());
    } catch (PiTrouble | SerialTrouble | ChipTrouble e) {
      return complain(TROUBLE, e.getMessage());
    }
  }

  private static boolean check(AgentConfiguration configuration) {
    Preconditions.Needs needs =
        new Preconditions.Needs(
            Path.of("/dev"),
            Path.of("/proc/cmdline"),
            configuration.serialDevice(),
            providers(configuration),
            configuration.tickMicros(),
            configuration.record());
    return new Preconditions(
            needs, BoardDescription.revisionA(), finding -> System.out.println(finding.line()))
        .hold();
  }

  private static PiBoard.Providers providers(AgentConfiguration configuration) {
    return new PiBoard.Providers(
        configuration.spiProvider(), configuration.inputProvider(), configuration.outputProvider());
  }

  /**
   * @param tickSeconds after so long it ends and prints how well it kept its tick; 0 for never
   */
  private static void serve(AgentConfiguration configuration, int tickSeconds)
      throws PiTrouble, SerialTrouble, ChipTrouble {
    BoardDescription description = BoardDescription.revisionA();
    try (Supervisor supervisor = Supervisor.ofEnvironment();
        SerialChannel serial =
            SerialChannel.open(configuration.serialDevice(), configuration.baud());
        PiBoard pi = RaspberryPi.open(description)) {
      SensingBoard board = pi.sensingBoard(providers(configuration));
      long bootId = new SecureRandom().nextLong(1, Long.MAX_VALUE);
      EndpointLink link = link(serial, bootId, description, configuration);
      LoopClock clock = new LoopClock();
      Agent agent = new Agent(board, description, link, configuration.tickMicros(), clock::micros);
      Measurement measurement =
          tickSeconds == 0 ? null : new Measurement(tickSeconds, configuration.tickMicros());
      AgentLoop loop =
          new AgentLoop(
              clock,
              (now, due) -> {
                agent.step(now, due);
                supervisor.alive(now);
              },
              configuration.tickMicros(),
              measurement);
      CountDownLatch safe = new CountDownLatch(1);
      Runtime.getRuntime().addShutdownHook(new Thread(() -> letGo(loop, safe), "let-go"));
      supervisor.ready();
      tell(serving(configuration, description));
      try {
        loop.run();
      } finally {
        letGo(agent, link, safe);
      }
      if (measurement != null) {
        measurement.lines().forEach(System.out::println);
      }
    }
  }

  private static String serving(AgentConfiguration configuration, BoardDescription description) {
    String record =
        configuration.record().map(settings -> settings.directory().toString()).orElse("none");
    return "version "
        + version()
        + ", board revision "
        + description.revision()
        + ", serving "
        + configuration.serialDevice()
        + " at "
        + configuration.baud()
        + ", record: "
        + record;
  }

  private static EndpointLink link(
      SerialChannel serial,
      long bootId,
      BoardDescription description,
      AgentConfiguration configuration) {
    int baud = configuration.baud();
    if (configuration.record().isEmpty()) {
      return EndpointLink.open(serial, bootId, version(), description.revision(), baud);
    }
    FrameLog log = FrameLog.open(configuration.record().get(), bootId, EndpointLink.memory(baud));
    return EndpointLink.open(serial, bootId, version(), description.revision(), baud, log);
  }

  /** The board first, then the record, whatever becomes of the other. */
  private static void letGo(Agent agent, EndpointLink link, CountDownLatch done)
      throws ChipTrouble {
    try (link) {
      agent.stop();
      tell("stopped, the relays are open");
    } finally {
      done.countDown();
    }
  }

  /** Whoever ends the program waits for the board to be safe, the record closed; not for ever. */
  private static void letGo(AgentLoop loop, CountDownLatch safe) {
    loop.end();
    try {
      if (!safe.await(LET_GO_SECONDS, TimeUnit.SECONDS)) {
        complain(
            TROUBLE,
            "the board could not be made safe, its watchdog opens the relays; or the record could"
                + " not be closed, it is looked through at the next start");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static String version() {
    String version = AgentMain.class.getPackage().getImplementationVersion();
    return version == null ? "development" : version;
  }

  private static void tell(String message) {
    System.out.println("bellwire-agent: " + message);
  }

  private static int complain(int code, @Nullable String message) {
    System.err.println("bellwire-agent: " + message);
    return code;
  }
}
