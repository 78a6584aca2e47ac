package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class CompareCommandTest {
  private static final String ARMS =
      "\"arm-ohm\":{\"P1\":0.41,\"P2\":%s},\"arm-standard-uncertainty-ohm\":{\"P1\":0.001,\"P2\":%s}";

  @TempDir Path directory;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  private final CommandLine line =
      BellwireMain.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));

  private Path file(String name, String text) throws IOException {
    return Files.writeString(directory.resolve(name), text);
  }

  private static String landing(String rest) {
    return "{\"bellwire-survey\":1,\"landing\":{\"ports\":[\"P1\",\"P2\"],"
        + "\"joined\":[{\"between\":[\"P1\",\"P2\"],\"ohm\":16.0,\"standard-uncertainty\":0.1}],"
        + "\"farad\":{},"
        + rest
        + "}}";
  }

  private static String arms(String ohms, String u) {
    return landing(String.format(ARMS, ohms, u));
  }

  private int compare(Path before, Path after) {
    return line.execute("compare", before.toString(), after.toString());
  }

  @Test
  void aLooseClampIsNamedWithWhatToDo() throws IOException {
    Path before = file("before.json", arms("0.43", "0.001"));
    assertThat(compare(before, file("after.json", arms("2.70", "0.001")))).isEqualTo(1);
    assertThat(out.toString())
        .contains("a clamp is loose: P2: 0.430 ohm to the tie plug before, 2.70 ohm now")
        .contains("Re-seat the conductor under its clamp and tug it")
        .doesNotContain("P1:");
  }

  @Test
  void anArmThatIsNotKnownWellEnoughAccusesNoClamp() throws IOException {
    Path before = file("before.json", arms("0.43", "0.6"));
    assertThat(compare(before, file("after.json", arms("1.10", "0.6")))).isZero();
    assertThat(out.toString()).contains("as before, in what was measured");
  }

  @Test
  void withoutTheTiePlugItIsSaidThatALooseClampDoesNotShow() throws IOException {
    Path before = file("before.json", arms("0.43", "0.001"));
    Path after = file("after.json", landing("\"arm-ohm\":{},\"arm-standard-uncertainty-ohm\":{}"));
    assertThat(compare(before, after)).isZero();
    assertThat(out.toString()).contains("a loose clamp does not show");
  }

  @Test
  void whatIsNoSurveyInPlaceIsRefusedInOneLineWithTheRemedy() throws IOException {
    Path good = file("good.json", arms("0.43", "0.001"));
    refused(good, directory.resolve("none.json"), "no such file; name one that");
    refused(good, file("text.json", "P1 16 ohm"), "not JSON; name a file that");
    refused(good, file("empty.json", ""), "no survey; name a file that");
    refused(good, file("other.json", "{\"a\":1}"), "no survey; name a file that");
    refused(good, file("plain.json", "{\"bellwire-survey\":1}"), "no survey in place; name a");
    refused(
        good,
        file("later.json", arms("0.43", "0.001").replace("-survey\":1", "-survey\":7")),
        "version 7 of a survey's result, and this program reads 1; compare with the program");
  }

  @Test
  void aDamagedLandingIsRefusedAndNotTakenForOneAsBefore() throws IOException {
    Path good = file("good.json", arms("0.43", "0.001"));
    String whole = arms("0.43", "0.001");
    refused(
        good,
        file("bare.json", "{\"bellwire-survey\":1,\"landing\":{}}"),
        "damaged (no ports); measure again");
    refused(
        good,
        file("none.json", whole.replace("[\"P1\",\"P2\"],\"joined\"", "[],\"joined\"")),
        "damaged (ports=[]); measure again");
    refused(good, file("port.json", whole.replace("P2", "P99")), "damaged (port=P99)");
    refused(good, file("word.json", whole.replace("16.0", "\"x\"")), "damaged (number=\"x\")");
    refused(
        good,
        file("u.json", whole.replace(",\"P2\":0.001", "")),
        "damaged (arm-standard-uncertainty-ohm of P2)");
  }

  private void refused(Path good, Path bad, String words) {
    for (boolean first : new boolean[] {true, false}) {
      err.getBuffer().setLength(0);
      assertThat(first ? compare(bad, good) : compare(good, bad)).as(words).isEqualTo(2);
      assertThat(err.toString().lines().toList()).hasSize(1);
      assertThat(err.toString()).contains(bad.toString()).contains(words);
    }
    assertThat(out.toString()).isEmpty();
  }
}
