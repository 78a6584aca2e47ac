package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.report.Cautions;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;

class TiesCommandTest {
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  private final CommandLine line =
      BellwireMain.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));

  private String printed() {
    return out.toString().replaceAll("\\s+", " ");
  }

  @Test
  void thePlanIsToldStepByStepAfterTheCautions() {
    assertThat(line.execute("ties", "8")).isZero();
    assertThat(printed())
        .contains("1 to 8, from left to right")
        .contains("Round 1: clip together 1 and 2, 3 and 4, 6 and 7 (3 clips)")
        .contains("Take off ALL the clips")
        .contains("Round 2: clip together 2 and 3, 4 and 5, 7 and 8 (3 clips)")
        .contains("Cut it back and strip it afresh")
        .contains("slack");
    assertThat(Cautions.lines()).allSatisfy(c -> assertThat(printed()).contains(c));
    assertThat(out.toString().lines()).allMatch(l -> l.length() <= 80, "at most 80 columns");
  }

  @Test
  void twoConductorsAreExplainedAndServedByBareMetal() {
    assertThat(line.execute("ties", "2")).isZero();
    assertThat(printed())
        .contains("A resistor is symmetric")
        .contains("diode")
        .contains("clip together 1 and bare metal (one clip)")
        .contains("clip together 2 and bare metal (one clip)");
  }

  @Test
  void whoeverIsLeftOutIsSaid() {
    assertThat(line.execute("ties", "9")).isZero();
    assertThat(printed())
        .contains("Number 9 is in no tie")
        .contains("With 8 ties in place of 6 every conductor is in one");
    assertThat(line.execute("ties", "9", "--all")).isZero();
    assertThat(printed()).contains("8 and 9 (4 clips)");
  }

  @Test
  void thePlanIsThereAsJson() throws Exception {
    assertThat(line.execute("ties", "--json", "16")).isZero();
    JsonNode plan = new ObjectMapper().readTree(out.toString());
    assertThat(plan.path("bellwire-ties").asInt()).isEqualTo(1);
    assertThat(plan.path("cautions")).isNotEmpty();
    for (JsonNode round : plan.path("rounds")) {
      Set<Integer> used = new HashSet<>();
      round.forEach(pair -> pair.forEach(end -> assertThat(used.add(end.asInt())).isTrue()));
      assertThat(round).hasSize(6);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "ties 1, ties takes 2 to 64 conductors",
    "ties 65, ties takes 2 to 64 conductors",
    "ties six, is not a whole number",
    "ties, Missing required parameter",
    "ties 4 --all, one is always left over",
    "survey --bench x --ties=some, '--ties takes nothing, or =all'",
    "survey --bench x --conductors 5, --conductors goes with --ties",
    "survey --bench x --ties --conductors 17, --conductors takes 2 to 16",
    "survey --bench x --ties --skip tie, --ties waits for no plug",
  })
  void wrongInputIsOneClearLine(String arguments, String said) {
    assertThat(line.execute(arguments.split(" "))).isEqualTo(2);
    assertThat(err.toString()).contains(said);
    assertThat(err.toString().lines()).hasSize(2);
    assertThat(out.toString()).isEmpty();
  }
}
