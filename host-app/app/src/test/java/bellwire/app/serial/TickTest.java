package bellwire.app.serial;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * How well the agent keeps its tick while it keeps a touch vigil, which asks most of each step,
 * with the settings of its package. Prints the figures; only what does not hang on the machine is
 * checked.
 */
@Tag("alone")
@Tag("realtime")
class TickTest {
  private static final int SECONDS = Integer.getInteger("bellwire.seconds", 20);
  private static final String BENCH =
      """
      bellwire-bench: 1
      seed: 8
      cable:
        gauge: 18 AWG
        length: 20 m
        conductors:
          - {port: P1, colour: red, far: 1}
          - {port: P2, colour: white, far: 2}
          - {port: P3, colour: green, far: 3}
          - {port: P4, colour: blue, far: 4}
          - {port: P5, colour: yellow, far: 5}
      far-end: [{from: 0 s, plug: open}]
      """;

  @TempDir Path directory;

  @BeforeAll
  static void require() throws InterruptedException {
    SerialRig.require();
  }

  /** Java of this machine, the chips simulated in the same thread. */
  @Test
  void onThisMachine() throws Exception {
    Path bench = Files.writeString(directory.resolve("bench.yaml"), BENCH);
    try (SerialRig rig = new SerialRig(directory)) {
      List<String> command = new ArrayList<>(PackagedAgent.priority());
      command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
      command.addAll(PackagedAgent.settings());
      command.addAll(List.of("-cp", System.getProperty("java.class.path")));
      command.add("bellwire.simbench.serve.TickOnBench");
      command.addAll(List.of(bench.toString(), rig.agentDevice(), "--for", "" + SECONDS));
      try (ChildProgram agent = ChildProgram.command(directory, "tick", command)) {
        agent.awaitLine("serving ");
        check(watched(rig, agent));
      }
    }
  }

  /** The agent's own program on Pi4J's providers, for Arm and so under emulation. */
  @Test
  void onTheRealProviders() throws Exception {
    PiRig.require();
    Bench bench = BenchFile.parse("bench.yaml", BENCH);
    try (PiRig rig = new PiRig(directory, bench, "tick", "" + SECONDS).awaitAgent()) {
      check(watched(rig.serial(), rig.agent()));
    }
  }

  private List<String> watched(SerialRig rig, ChildProgram agent) throws Exception {
    try (ChildProgram vigil =
        rig.bellwire(
            "vigil",
            "start",
            "touch",
            "--job",
            directory.resolve("tick.bellwire").toString(),
            "--ports",
            "P1-P5",
            "--for",
            SECONDS + " s",
            "--people",
            "nobody",
            "--coldest",
            "15 C",
            "--heat-by",
            LocalTime.now().plusHours(3).truncatedTo(ChronoUnit.MINUTES).toString(),
            "--port",
            rig.hostDevice())) {
      List<String> lines = agent.output(SECONDS + ChildProgram.PATIENCE_SECONDS);
      lines.forEach(System.out::println);
      vigil.interrupt();
      vigil.output(ChildProgram.PATIENCE_SECONDS).forEach(System.out::println);
      return lines;
    }
  }

  private static void check(List<String> lines) {
    Matcher counts =
        Pattern.compile("tick of 1000 us over ([0-9.]+) s: ([0-9]+) steps, ([0-9]+) left out")
            .matcher(lines.stream().filter(l -> l.startsWith("tick of")).findFirst().orElseThrow());
    assertThat(counts.matches()).isTrue();
    double seconds = Double.parseDouble(counts.group(1));
    long all = Long.parseLong(counts.group(2)) + Long.parseLong(counts.group(3));
    assertThat(seconds).isBetween(SECONDS - 1.0, SECONDS + 1.0);
    assertThat((double) all).isBetween(1000 * seconds - 60, 1000 * seconds + 60);
  }
}
