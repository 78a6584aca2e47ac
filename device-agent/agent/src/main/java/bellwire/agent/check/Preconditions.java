package bellwire.agent.check;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.agent.chip.Converter;
import bellwire.agent.pi.PiBoard;
import bellwire.agent.pi.PiTrouble;
import bellwire.agent.pi.RaspberryPi;
import bellwire.agent.record.RecordSettings;
import bellwire.agent.runtime.AgentLoop;
import bellwire.agent.runtime.LoopClock;
import bellwire.board.BoardDescription;
import bellwire.board.BoardDescription.SpiDevice;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Consumer;

/** Goes through them in the order in which each needs the ones before. */
public final class Preconditions {
  private static final int TICKS = 2000;
  private static final int MOST_CHIPS = 16;

  /** A fifth of what the board's watchdog waits for an edge. */
  private static final long LATE_MICROS = 10_000;

  /**
   * What the agent was told.
   *
   * @param devices directory of device files
   * @param kernelWords file of the kernel's command line
   * @param record where it records on its own; empty for nowhere
   */
  public record Needs(
      Path devices,
      Path kernelWords,
      String serialDevice,
      PiBoard.Providers providers,
      int tickMicros,
      Optional<RecordSettings> record) {}

  private final Needs needs;
  private final BoardDescription board;
  private final Path devices;
  private final Consumer<Finding> told;
  private boolean failed;

  /**
   * @param told each finding as it is known
   */
  public Preconditions(Needs needs, BoardDescription board, Consumer<Finding> told) {
    this.needs = needs;
    this.board = board;
    this.told = told;
    devices = needs.devices();
  }

  /** Whether none failed. The board is reset and its relays stay open. */
  public boolean hold() {
    java();
    List.of("converter", "expanders", "crosspoint").forEach(this::spi);
    gpio();
    serial();
    record();
    priority();
    tick();
    if (failed) {
      tell(Finding.note("board", "not asked: mend the above first"));
    } else {
      board();
    }
    return !failed;
  }

  private void tell(Finding finding) {
    failed |= finding.verdict() == Finding.Verdict.FAIL;
    told.accept(finding);
  }

  private void java() {
    int version = Runtime.version().feature();
    String arch = System.getProperty("os.arch");
    tell(
        version >= 17
            ? Finding.pass("Java", version + " for " + arch)
            : Finding.fail("Java", version + "; install 17 or newer: default-jre-headless"));
  }

  private void spi(String name) {
    SpiDevice device = board.spi(name);
    Path path = devices.resolve("spidev" + device.bus() + "." + device.chipSelect());
    String overlay = PiSetup.spiLine(device.bus());
    String what = name + ", " + path;
    if (!Files.exists(path)) {
      tell(Finding.fail(what, "not there; put " + overlay + " into config.txt and start anew"));
    } else {
      tell(SerialLine.openable(what, path, "spi"));
    }
  }

  private void gpio() {
    Path any = null;
    for (int i = 0; i < MOST_CHIPS; i++) {
      Path chip = devices.resolve("gpiochip" + i);
      if (Files.exists(chip)) {
        any = chip;
        if (Files.isReadable(chip) && Files.isWritable(chip)) {
          tell(Finding.pass("GPIO", chip + " may be opened"));
          return;
        }
      }
    }
    tell(
        any == null
            ? Finding.fail("GPIO", "no " + devices + "/gpiochip*; is this a Raspberry Pi?")
            : Finding.fail("GPIO", any + " may not be opened; join the group gpio"));
  }

  private void serial() {
    new SerialLine(needs.serialDevice(), needs.kernelWords()).findings().forEach(this::tell);
  }

  private void record() {
    if (needs.record().isEmpty()) {
      tell(Finding.note("record", "none: a vigil lasts only while a host listens"));
      return;
    }
    RecordSettings settings = needs.record().get();
    Path directory = settings.directory();
    try {
      Files.delete(Files.createTempFile(directory, "check", ""));
      long free = Files.getFileStore(directory).getUsableSpace();
      String space = String.format(Locale.ROOT, "%d MB free in %s", free >> 20, directory);
      tell(
          free >= settings.bytes()
              ? Finding.pass("record", space)
              : Finding.note("record", space + ", less than record-bytes: " + settings.bytes()));
    } catch (IOException e) {
      tell(
          Finding.fail(
              "record",
              directory
                  + " cannot be written; sudo install -d -o "
                  + System.getProperty("user.name")
                  + " "
                  + directory));
    }
  }

  /** As the kernel says it of this process. */
  private void priority() {
    String limit = "";
    try {
      for (String line : Files.readAllLines(Path.of("/proc/self/limits"))) {
        if (line.startsWith("Max realtime priority")) {
          limit = line.substring("Max realtime priority".length()).strip().split("\\s+")[0];
        }
      }
    } catch (IOException e) {
      limit = "";
    }
    boolean allowed = !limit.isEmpty() && !limit.equals("0");
    tell(
        allowed
            ? Finding.pass("real-time priority", "allowed up to " + limit)
            : Finding.note(
                "real-time priority", "not for this user; systemd gives it to the service"));
  }

  /** The loop that steps the agent, with nothing to do. */
  private void tick() {
    LoopClock clock = new LoopClock();
    long[] worst = new long[1];
    int[] count = new int[1];
    AgentLoop[] loop = new AgentLoop[1];
    loop[0] =
        new AgentLoop(
            clock,
            (now, due) -> {
              worst[0] = Math.max(worst[0], now - due);
              if (++count[0] == TICKS) {
                loop[0].end();
              }
            },
            needs.tickMicros());
    loop[0].run();
    String found = String.format(Locale.ROOT, "%d ticks, latest by %d us", count[0], worst[0]);
    tell(
        worst[0] < LATE_MICROS
            ? Finding.pass("tick", found)
            : Finding.note("tick", found + ": what else is this computer doing?"));
  }

  private void board() {
    try (PiBoard pi = RaspberryPi.open(board)) {
      SensingBoard sensing = pi.sensingBoard(needs.providers());
      sensing.beginReset();
      LockSupport.parkNanos(2000 * Converter.RESET_MICROS);
      sensing.finishReset();
      tell(Finding.pass("board", "its chips answer; the relays are open"));
      tell(
          sensing.interlockTripped()
              ? Finding.note("interlock", "tripped, as after power-on; a host arms it")
              : Finding.pass("interlock", "clear; that never means 'proved dead'"));
    } catch (PiTrouble e) {
      tell(
          Finding.fail(
              "board", e.getMessage() + "; does the agent run? systemctl stop bellwire-agent"));
    } catch (ChipTrouble e) {
      tell(Finding.fail("board", e.reason() + "; look at its supply and its plugs"));
    }
  }
}
