package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Supposition.Pair;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Shows the inference's computation time; asserts what was inferred, never how fast. */
class DiagnosisTimeTest {
  private static final String CONDUCTORS = System.getProperty("bellwire.conductors", "16");

  private static List<Pair> bridges(Explanation explanation) {
    List<Pair> pairs = new ArrayList<>();
    for (Fault fault : explanation.faults()) {
      if (fault.kind() == Fault.Kind.BRIDGE) {
        pairs.add(new Pair(fault.ports().get(0), fault.others().get(0)));
      }
    }
    return pairs;
  }

  @Test
  void faultsAreFoundInCablesOfAnySize() {
    for (int n : new int[] {4, 16, 64}) {
      Explanation three = Diagnosis.of(DiagnosisTime.threeFaults(n)).explanations().get(0);
      assertThat(three.faults()).as("conductors=" + n).hasSize(3);
      assertThat(three.explained()).isTrue();
      assertThat(bridges(three)).containsExactly(new Pair(0, 1));
      Explanation pairs = Diagnosis.of(DiagnosisTime.bridgedPairs(n)).explanations().get(0);
      List<Pair> drawn = new ArrayList<>();
      for (int k = 0; k < n; k += 4) {
        drawn.add(new Pair(k, k + 1));
      }
      assertThat(bridges(pairs)).as("conductors=" + n).containsExactlyElementsOf(drawn);
    }
  }

  /** A first call needs a machine of its own. */
  @Test
  void firstCallInAFreshMachine() throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.add("-cp");
    command.add(System.getProperty("java.class.path"));
    command.add(DiagnosisTime.class.getName());
    command.addAll(List.of(CONDUCTORS.split(",", -1)));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    System.out.print(printed);
    assertThat(process.waitFor()).as(printed).isZero();
  }
}
