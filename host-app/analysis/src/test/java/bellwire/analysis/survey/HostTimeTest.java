package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** Shows the host's computation time; asserts what was computed, never how fast. */
class HostTimeTest {

  @Test
  void sixteenConductorsAreAllPlaced() {
    for (int bridges : new int[] {0, 4, 8}) {
      SurveyResult result = new HostTime(bridges).evaluate().result();
      for (SurveyResult.ConductorResult c : result.conductors()) {
        assertThat(c.position()).as("bridges=" + bridges).isEqualTo((5 * c.port() + 3) % 16 + 1);
      }
      assertThat(result.conductors()).hasSize(16);
    }
  }

  /** A first call needs a machine of its own. */
  @Test
  void firstCallInAFreshMachine() throws IOException, InterruptedException {
    for (String bridges : new String[] {"0", "8"}) {
      Process process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-cp",
                  System.getProperty("java.class.path"),
                  HostTime.class.getName(),
                  bridges)
              .redirectErrorStream(true)
              .start();
      String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      System.out.print(printed);
      assertThat(process.waitFor()).as(printed).isZero();
    }
  }
}
