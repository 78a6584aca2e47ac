package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A load between two conductors is told as one and never as copper on copper besides. */
class AttachedTextTest {
  @TempDir Path directory;

  private String printed(String load) throws Exception {
    String yaml =
        """
        bellwire-bench: 1
        seed: 5
        cable:
          gauge: 18 AWG
          length: 20 m
          conductors:
            - {port: P1, colour: red, far: 1}
            - {port: P2, colour: white, far: 2}
            - {port: P3, colour: green, far: 3}
            - {port: P4, colour: yellow, far: 4}
            - {port: P5, colour: blue, far: 5}
        attached: [%s]
        far-end: [{from: 0 s, plug: open}, {from: 60 s, plug: coded}, {from: 120 s, plug: tie}]
        """
            .formatted(load);
    Path bench = Files.writeString(directory.resolve("bench.yaml"), yaml);
    StringWriter out = new StringWriter();
    int status =
        BellwireMain.commandLine()
            .setOut(new PrintWriter(out))
            .execute("survey", "--bench", bench.toString());
    assertThat(status).isEqualTo(1);
    String text = out.toString();
    return text.substring(text.indexOf("CONDUCTORS")).replaceAll("\\s+", " ");
  }

  @Test
  void whatIsAttachedIsNotCalledTouchingBesides() throws Exception {
    for (String load :
        new String[] {
          "{coil: [P1, P4], ohm: 16, henry: 0.25, at: near}",
          "{secondary: [P1, P4], ohm: 0.5, henry: 0.2, at: near}",
          "{diode: [P1, P4], volts: 0.6, ohm: 10, at: far}"
        }) {
      String kind = load.substring(1, load.indexOf(':'));
      assertThat(printed(load))
          .as(load)
          .contains(kind + " is still attached: P1 and P4")
          .doesNotContain("touch")
          .doesNotContain("WHAT WOULD EXPLAIN IT")
          .doesNotContain("that no fault explains")
          .doesNotContain("FAULTY");
    }
  }

  @Test
  void copperThatTouchesElsewhereIsStillSaid() throws Exception {
    assertThat(
            printed(
                "{coil: [P1, P4], ohm: 16, henry: 0.25, at: near}, {jumper: [P2, P3], ohm: 0.05, at: near}"))
        .contains("a coil is still attached: P1 and P4")
        .contains("touches P3")
        .contains("P2 to P3");
  }
}
